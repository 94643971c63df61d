# Critical values (two-sided, 5 %) of many comparisons: T_i = Z_i / S with Z_i = a_i u + b_i v + own part, u, v, own parts standard normal, S = sqrt(chi-square / df).
# By sums over u, v and ln S in base R; where there are 200 or fewer, mvtnorm's pmvt says how much lies outside at the value found, with its own error.
# Rscript many-comparisons.R
suppressMessages(library(mvtnorm))
critical <- function(a, b, df) {
  kinds <- unique(data.frame(a, b))
  kinds$n <- sapply(seq_len(nrow(kinds)), function(k) sum(a == kinds$a[k] & b == kinds$b[k]))
  own <- sqrt(1 - kinds$a^2 - kinds$b^2)
  u <- seq(-8, 8, by = 0.05)
  grid <- if (all(b == 0)) data.frame(u = seq(-9, 9, by = 0.005), v = 0) else expand.grid(u = u, v = u)
  weight <- if (all(b == 0)) dnorm(grid$u) * 0.005 else dnorm(grid$u) * dnorm(grid$v) * 0.05^2
  grid <- grid[weight > 1e-13, ]; weight <- weight[weight > 1e-13]
  inside <- function(x) {
    log <- 0
    for (k in seq_along(own)) {
      centre <- kinds$a[k] * grid$u + kinds$b[k] * grid$v
      log <- log + kinds$n[k] * log(pnorm((x - centre) / own[k]) - pnorm((-x - centre) / own[k]))
    }
    sum(exp(log) * weight)
  }
  whole <- function(d) {
    if (is.infinite(df)) return(inside(d))
    l <- seq(log(0.05), log(4), length.out = if (all(b == 0)) 3000 else 250)
    s <- exp(l); density <- 2 * df * s^2 * dchisq(df * s^2, df) * (l[2] - l[1])
    keep <- density > 1e-12
    sum(sapply(d * s[keep], inside) * density[keep])
  }
  uniroot(function(d) whole(d) - 0.95, c(2, 8), tol = 1e-9)$root
}
show <- function(name, a, b, df) {
  d <- critical(a, b, df); n <- length(a); p <- "-"
  if (n <= 200) {
    r <- outer(a, a) + outer(b, b); diag(r) <- 1; set.seed(1)
    found <- pmvt(rep(-d, n), rep(d, n), df = if (is.infinite(df)) 0 else df, corr = r, algorithm = GenzBretz(maxpts = 2e5))
    p <- sprintf("%.5f +- %.5f", 1 - found, attr(found, "error"))
  }
  cat(name, n, df, sprintf("%.6f", d), p, "\n")
}
half <- sqrt(0.5); each <- function(values, n) rep(values, each = n)
show("one factor", each(half, 100), each(0, 100), 20)
show("one factor", each(half, 500), each(0, 500), 1000)
show("one factor", each(half, 500), each(0, 500), Inf)
show("one factor", each(c(0.5, 0.8), 100), each(0, 200), 12)
show("two factors", each(0.65, 40), each(c(0.3, -0.3), 20), 15)
show("two factors", each(0.65, 100), each(c(0.3, -0.3), 50), 30)
show("two factors", each(c(0.6, 0.8), 250), rep(each(c(0.25, -0.25), 125), 2), 100)
show("two factors", each(c(0.65, -0.65), 50), each(c(0.3, -0.3, 0.3, -0.3), 25), 8)
