# file: multivariate-t.json
# P(some |T_i| > t) with general correlations, by mvtnorm; the tolerance is what it states as its error, at 99 %,
# now (300,000 points) and when the value was made (4 million).
suppressMessages({library(mvtnorm); library(jsonlite)})
data <- fromJSON(commandArgs(TRUE)[1], simplifyVector = TRUE)
set.seed(20261127)
values <- list()
rows <- data$probabilities
for (i in seq_len(nrow(rows))) {
  corr <- data$matrices[[rows$matrix[i]]]
  n <- nrow(corr)
  p <- pmvt(rep(-rows$t[i], n), rep(rows$t[i], n), df = rows$degreesOfFreedom[i], corr = corr, algorithm = GenzBretz(maxpts = 3e5, abseps = 1e-9))
  both <- (rows$error[i] + attr(p, "error")) / rows$outside[i]
  values[[length(values) + 1]] <- list(path = unbox(paste0("probabilities/", i - 1, "/outside")), value = unbox(1 - as.numeric(p)), tolerance = unbox(both))
}
given <- list(c("matrices/**", "invented"), c("probabilities/*/degreesOfFreedom", "which value"), c("probabilities/*/t", "which value"),
  c("probabilities/*/error", "what mvtnorm stated when the value was made; it serves as the tolerance"))
cat(toJSON(list(with = unbox(paste(R.version.string, "mvtnorm", packageVersion("mvtnorm"))), given = given, values = values), digits = NA))
