# file: dunnett-example.json
# A second opinion on what the scripts in Python made of Dunnett's example: aov, and the bivariate t of mvtnorm by its exact algorithm.
suppressMessages({library(mvtnorm); library(jsonlite)})
data <- fromJSON(commandArgs(TRUE)[1])$data
counts <- data.frame(y = c(data$control, data$A, data$B), group = factor(rep(c("control", "A", "B"), lengths(data[c("control", "A", "B")])), levels = c("control", "A", "B")))
fit <- aov(y ~ group, counts)
means <- tapply(counts$y, counts$group, mean)
sizes <- table(counts$group)
# Within the square: the quadrants that the exact algorithm can give, added and taken away.
below <- function(a, b, r) as.numeric(pmvt(lower = rep(-Inf, 2), upper = c(a, b), df = df.residual(fit), corr = matrix(c(1, r, r, 1), 2), algorithm = TVPACK(abseps = 1e-14)))
within <- function(t, r) below(t, t, r) - below(-t, t, r) - below(t, -t, r) + below(-t, -t, r)
r <- prod(sqrt(sizes[c("A", "B")] / (sizes[c("A", "B")] + sizes["control"])))
values <- lapply(c("A", "B"), function(g) {
  diff <- means[[g]] - means[["control"]]
  se <- sigma(fit) * sqrt(1 / sizes[[g]] + 1 / sizes[["control"]])
  list(path = unbox(paste0("expected/twoSided/", g)), tolerance = unbox(1e-10),
    value = list(diff = unbox(diff), se = unbox(se), t = unbox(diff / se), p = unbox(1 - within(abs(diff / se), r))))
})
cat(toJSON(list(with = unbox(paste(R.version.string, "mvtnorm", packageVersion("mvtnorm"))), given = list(), values = values), digits = NA))
