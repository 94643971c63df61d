# file: collections.json
# Data sets that come with R (datasets, MASS) and with nlme, and what nls, lm and analysis of variance make of them.
suppressMessages({library(jsonlite); library(MASS); library(nlme)})
values <- list()
say <- function(path, value, tolerance) values[[length(values) + 1]] <<- list(path = unbox(path), value = value, tolerance = unbox(tolerance))

# A logistic in the logarithm of the concentration is the form q (K C)^n / (1 + (K C)^n).
curve <- deriv(~ q * (K * x)^n / (1 + (K * x)^n), c("q", "K", "n"), function(x, q, K, n) NULL)
for (run in 1:11) {
  d <- DNase[DNase$Run == run, ]
  x <- d$conc
  y <- d$density
  first <- coef(nls(y ~ SSlogis(log(x), Asym, xmid, scal)))
  fit <- nls(y ~ curve(x, q, K, n), start = list(q = first[["Asym"]], K = exp(-first[["xmid"]]), n = 1 / first[["scal"]]), control = nls.control(tol = 1e-9, warnOnly = TRUE))
  # Where a step gains nothing more in double precision nls warns and keeps what it has.
  table <- summary(fit)$coefficients
  say(paste0("saturation/", run - 1), list(x = x, y = y), 0)
  say(paste0("saturation/", run - 1), list(parameters = unname(table[, 1]), ssr = unbox(deviance(fit))), 1e-7)
  say(paste0("saturation/", run - 1), list(standardErrors = unname(table[, 2])), 1e-5)
}

fit <- lm(optden ~ carb, Formaldehyde)
table <- summary(fit)$coefficients
say("line", list(x = Formaldehyde$carb, y = Formaldehyde$optden), 0)
say("line", list(intercept = unbox(table[1, 1]), slope = unbox(table[2, 1]), seIntercept = unbox(table[1, 2]), seSlope = unbox(table[2, 2]), scatter = unbox(sigma(fit))), 1e-10)

# All is balanced: the components follow from the mean squares.
nested <- function(path, y, outer, inner) {
  outer <- factor(outer)
  unit <- factor(paste(outer, inner))
  squares <- anova(lm(y ~ outer + unit))[["Mean Sq"]]
  degrees <- anova(lm(y ~ outer + unit))[["Df"]]
  each <- length(y) / nlevels(unit)
  units <- nlevels(unit) / nlevels(outer)
  say(path, list(values = y, outer = as.character(outer), unit = as.character(unit)), 0)
  say(path, list(degreesOfFreedom = degrees), 0)
  say(path, list(components = c((squares[1] - squares[2]) / (each * units), (squares[2] - squares[3]) / each, squares[3])), 1e-9)
}
for (s in levels(coop$Spc)) {
  d <- coop[coop$Spc == s, ]
  nested(paste0("components/", match(s, levels(coop$Spc)) - 1), d$Conc, d$Lab, d$Bat)
}
nested("components/7", Oxide$Thickness, as.character(Oxide$Lot), as.character(Oxide$Wafer))
squares <- anova(lm(travel ~ factor(as.character(Rail)), Rail))
say("single", list(values = Rail$travel, unit = as.character(Rail$Rail)), 0)
say("single", list(degreesOfFreedom = squares$Df, components = c((squares[["Mean Sq"]][1] - squares[["Mean Sq"]][2]) / 3, squares[["Mean Sq"]][2])), 1e-9)

cat(toJSON(list(with = unbox(paste(R.version.string, "MASS", packageVersion("MASS"), "nlme", packageVersion("nlme"))), given = list(c("line/published/*", "published, read in the documentation of a general library")), values = values), digits = NA))
