# file: means-of-groups.json
# PlantGrowth and Machines as they come with R and nlme: the groups themselves, and what aov, multcomp and nlme make of them.
suppressMessages({library(multcomp); library(nlme); library(jsonlite)})
values <- list()
say <- function(path, value, tolerance) values[[length(values) + 1]] <<- list(path = path, value = value, tolerance = tolerance)

groups <- unname(split(PlantGrowth$weight, PlantGrowth$group))
say("plantGrowth/groups", groups, 0)
fit <- aov(weight ~ group, PlantGrowth)
say("plantGrowth/degreesOfFreedom", unbox(df.residual(fit)), 0)
say("plantGrowth/standardDeviation", unbox(sigma(fit)), 1e-9)
set.seed(1)
told <- summary(glht(fit, linfct = mcp(group = "Dunnett")), test = adjusted("single-step", abseps = 1e-10, maxpts = 1e6))$test
for (i in 1:2) say(paste0("plantGrowth/differences/", i - 1), list(estimate = unbox(unname(told$coefficients[i])),
  standardError = unbox(unname(told$sigma[i])), t = unbox(unname(told$tstat[i])), p = unbox(told$pvalues[i])), 1e-6)

machines <- function(data, path) {
  data <- data[order(data$Machine, as.integer(as.character(data$Worker))), ]
  data$unit <- factor(paste(data$Machine, data$Worker))
  groups <- lapply(split(data, data$Machine), function(m) unname(split(m$score, as.integer(as.character(m$Worker)))))
  say(paste0(path, "/groups"), unname(groups), 0)
  fit <- lme(score ~ Machine, data, random = ~ 1 | unit, control = lmeControl(msTol = 1e-12, tolerance = 1e-12, opt = "optim", reltol = 1e-14))
  table <- summary(fit)$tTable
  say(paste0(path, "/degreesOfFreedom"), unbox(table[2, "DF"]), 0)
  exact <- c(as.numeric(getVarCov(fit)), sigma(fit)^2)
  say(paste0(path, "/varianceBetween"), unbox(exact[1]), 2e-7)
  say(paste0(path, "/varianceWithin"), unbox(exact[2]), 2e-7)
  for (i in 1:2) say(paste0(path, "/differences/", i - 1), list(estimate = unbox(table[i + 1, "Value"]), standardError = unbox(table[i + 1, "Std.Error"])), 1e-7)
}
machines(as.data.frame(Machines), "machines")
machines(as.data.frame(Machines)[-c(1, 2, 5, 20, 33, 34), ], "machinesUnbalanced")

cat(toJSON(list(with = unbox(paste(R.version.string, "multcomp", packageVersion("multcomp"), "nlme", packageVersion("nlme"))),
  given = list(), values = lapply(values, function(v) { v$path <- unbox(v$path); v$tolerance <- unbox(v$tolerance); v })), digits = NA, null = "null"))
