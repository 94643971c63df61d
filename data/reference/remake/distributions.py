"""Distribution functions, tails and quantiles with mpmath at 70 digits; the quantiles start where SciPy has them."""

import mpmath as mp
from scipy import stats

mp.mp.dps = 70

GIVEN = {"distributions.json": {"*/*/arguments/*": "arguments"}}


def beta(a, b, x):
    return mp.betainc(a, b, 0, x, regularized=True)


def t_lower(t, df):
    if abs(t) < mp.sqrt(df):
        # Near the middle the complement converges fast; 70 digits are enough for what cancels.
        tail = mp.mpf(1) / 2 - beta(mp.mpf(1) / 2, df / 2, t * t / (df + t * t)) / 2
    else:
        tail = beta(df / 2, mp.mpf(1) / 2, df / (df + t * t)) / 2
    return tail if t < 0 else 1 - tail


def noncentral(t, df, delta, upper):
    """Normal tails over the distribution of s = sqrt(chi-square / df)."""
    log_constant = mp.log(2) + df / 2 * mp.log(df / 2) - mp.loggamma(df / 2)
    density = lambda s: mp.exp(log_constant + (df - 1) * mp.log(s) - df * s * s / 2)
    sign = -1 if upper else 1
    width = 1 / mp.sqrt(2 * df)
    points = [0, *(p for p in (1 - 6 * width, 1 - 2 * width, 1, 1 + 2 * width, 1 + 6 * width) if p > 0), 1 + 14 * width + 4, mp.inf]
    return mp.quad(lambda s: density(s) * mp.ncdf(sign * (t * s - delta)) if s > 0 else mp.mpf(0), points)


def root_near(start, lower, p):
    """Solves lower(x) = p for a positive x in logarithms, from where double precision has it."""
    u = mp.log(mp.mpf(start))
    return mp.exp(mp.findroot(lambda v: mp.log(lower(mp.exp(v)) / p), (u, u + mp.mpf(10) ** -8), tol=1e-110, verify=False))


def t_quantile(p, df):
    if p == mp.mpf(1) / 2:
        return mp.mpf(0)
    if p > mp.mpf(1) / 2:
        return -t_quantile(1 - p, df)
    return -root_near(-stats.t.ppf(float(p), float(df)), lambda x: t_lower(-x, df), p)


def normal_quantile(p):
    if p > mp.mpf(1) / 2:
        return -normal_quantile(1 - p)
    return -root_near(-stats.norm.ppf(float(p)), lambda x: mp.ncdf(-x), p)


def chi_lower(x, df):
    return mp.gammainc(df / 2, 0, x / 2, regularized=True)


def f_lower(x, d1, d2):
    return beta(d1 / 2, d2 / 2, d1 * x / (d1 * x + d2))


def f_upper(x, d1, d2):
    return beta(d2 / 2, d1 / 2, d2 / (d1 * x + d2))


def chi_quantile(p, df):
    # From the tail that is the smaller one, so that no digits are lost.
    start = float(stats.chi2.ppf(float(p), float(df)))
    if start == 0:
        start = float(mp.power(p * mp.gamma(df / 2 + 1), 2 / df) * 2)
    return root_near(start, lambda x: chi_lower(x, df), p)


FUNCTIONS = {
    "normalCdf": mp.ncdf,
    "normalQuantile": normal_quantile,
    "studentTCdf": t_lower,
    "studentTQuantile": t_quantile,
    "chiSquareCdf": chi_lower,
    "chiSquareUpperTail": lambda x, df: mp.gammainc(df / 2, x / 2, mp.inf, regularized=True),
    "chiSquareQuantile": chi_quantile,
    "fCdf": f_lower,
    "fUpperTail": f_upper,
    "fQuantile": lambda p, d1, d2: root_near(stats.f.ppf(float(p), float(d1), float(d2)), lambda x: f_lower(x, d1, d2), p),
    "noncentralTCdf": lambda t, df, delta: noncentral(t, df, delta, False),
    "noncentralTUpperTail": lambda t, df, delta: noncentral(t, df, delta, True),
}


def values(data, name):
    for function, call in FUNCTIONS.items():
        for i, row in enumerate(data[function]):
            arguments = [mp.mpf(v) for v in row["arguments"]]
            yield f"{function}/{i}/value", float(call(*arguments)), 1e-14
