"""Worked examples of measurement uncertainty, and the density of water; the start boxes hold no computed number."""

from itertools import product
from math import factorial

import numpy as np
from scipy import optimize, stats

QUAM = "QUAM:2012, as the file says: tables A2.1 and A3.1 read in a reproduction, the rest from memory"
JCGM = "JCGM 100 and 101, from memory"
READ = "JCGM 100, read in the documentation of a general library"

GIVEN = {
    "uncertainty.json": {
        "QUAM_A1/inputs/m_mg/*": QUAM,
        "QUAM_A1/inputs/P/0": QUAM,
        "QUAM_A1/inputs/V_mL/0": QUAM,
        "QUAM_A1/inputs/V_parts/repeatability": QUAM,
        "QUAM_A2/inputs/**": QUAM,
        "QUAM_A3/inputs/**": QUAM,
        "QUAM_A1/remembered/*": QUAM,
        "QUAM_*/published/*": QUAM,
        "JCGM101_9_2/*/remembered": JCGM,
        "JCGM101_9_2/rect3_plus_wide/remembered/*": JCGM,
        "JCGM100_H2/data/**": JCGM,
        "JCGM100_H3/t_C/*": READ,
        "JCGM100_H3/b_C/*": READ,
        "JCGM100_H3/read/**": READ,
        "JCGM100_H2/read/**": READ,
        "welchSatterthwaite/inputs/**": "invented",
        "waterDensity/remembered/**": "from memory",
    },
    "start-boxes.json": {"**": "ranges set before any start was drawn"},
}


def relative(pairs):
    return np.sqrt(sum((u / v) ** 2 for v, u in pairs))


def guide(d):
    a1, a2, a3 = d["QUAM_A1"], d["QUAM_A2"], d["QUAM_A3"]
    parts = {"tolerance_triangular": 0.1 / np.sqrt(6), "temperature_rect": 100 * 4 * 2.1e-4 / np.sqrt(3)}
    uv = np.sqrt(sum(u * u for u in (*parts.values(), a1["inputs"]["V_parts"]["repeatability"])))
    m, v, p = a1["inputs"]["m_mg"], 100.0, a1["inputs"]["P"][0]
    up = 0.0001 / np.sqrt(3)
    c = 1000 * m[0] * p / v
    yield "QUAM_A1/inputs/P/1", up, 1e-12
    yield "QUAM_A1/inputs/V_mL/1", uv, 1e-12
    yield "QUAM_A1/inputs/V_parts", parts, 1e-12
    yield "QUAM_A1/c", c, 1e-12
    yield "QUAM_A1/u_fullPrecision", c * relative([m, (p, up), (v, uv)]), 1e-12
    yield "QUAM_A1/u_withPrintedInputs", c * relative([m, (p, 0.000058), (v, 0.07)]), 1e-12
    # Potassium hydrogen phthalate C8H5O4K: the atomic weights of the guide with rectangular uncertainties.
    weights = [(8, 12.0107, 0.0008), (5, 1.00794, 0.00007), (4, 15.9994, 0.0003), (1, 39.0983, 0.0001)]
    yield "QUAM_A2/M_recomputed", sum(n * w for n, w, _ in weights), 1e-12
    yield "QUAM_A2/uM_recomputed", np.sqrt(sum((n * u) ** 2 / 3 for n, _, u in weights)), 1e-12
    yield "QUAM_A2/um_recomputed_two_weighings_rect_0_15mg", np.sqrt(2) * 0.00015 / np.sqrt(3), 1e-12
    # The guide rounds the volume to 19 mL and takes 3 °C as the limits of 95 %.
    yield "QUAM_A2/VT_u_triangular_0_03_and_temp_3C", np.hypot(0.03 / np.sqrt(6), 19 * 2.1e-4 * 3 / 1.96), 1e-12
    x = a2["inputs"]
    c = 1000 * x["m_g"][0] * x["P"][0] / (x["M"][0] * x["V_mL"][0])
    yield "QUAM_A2/c", c, 1e-12
    yield "QUAM_A2/u", c * relative(x.values()), 1e-12
    x = a3["inputs"]
    c = 1000 * x["m_g"][0] * x["P"][0] * x["VT2_mL"][0] / (x["VT1_mL"][0] * x["M"][0] * x["VHCl_mL"][0])
    yield "QUAM_A3", {
        "c": c, "u_recomputed": c * relative(x.values()), "u_rel_recomputed": relative(x.values()),
        "u_rel_without_rep": relative([v for k, v in x.items() if k != "rep"]),
    }, 1e-12  # fmt: skip


def below(t, halves):
    """Distribution function of a sum of rectangular errors of these half-widths about 0: the polynomial over all corners of their box."""
    n = len(halves)
    corners = [(np.prod(signs), t + np.dot(signs, halves)) for signs in product((-1, 1), repeat=n)]
    return sum(sign * max(0.0, x) ** n for sign, x in corners) / (factorial(n) * np.prod(2 * np.array(halves)))


def distributions(_):
    z = stats.norm.ppf(0.975)
    yield "JCGM101_9_2/normals4", {"u": 2, "interval95": 2 * z}, 1e-12
    one = np.sqrt(3)
    upper = lambda halves, most: optimize.brentq(lambda t: below(t, halves) - 0.975, 0, most, xtol=1e-14)
    yield "JCGM101_9_2/rect4", {
        "u": 2, "GUF": 2 * z, "analytic": 2 * np.sqrt(3) * (2 - (3 / 5) ** (1 / 4)), "byIrwinHallCdf": upper([one] * 4, 6),
    }, 1e-9  # fmt: skip
    u = np.sqrt(103)
    yield "JCGM101_9_2/rect3_plus_wide", {"u": u, "GUF": u * z}, 1e-12
    yield "JCGM101_9_2/rect3_plus_wide/exact95", upper([one] * 3 + [10 * one], 22), 1e-11


def impedance(d):
    v, i, phi = (np.array(d["data"][k]) for k in ("V_V", "I_A", "phi_rad"))
    means = np.array([v.mean(), i.mean(), phi.mean()])
    covariance = np.cov([v, i, phi]) / len(v)
    r = np.corrcoef([v, i, phi])
    yield "JCGM100_H2/inputCorrelations", {"r_V_I": r[0, 1], "r_V_phi": r[0, 2], "r_I_phi": r[1, 2]}, 1e-8
    z = means[0] / means[1]
    cos, sin = np.cos(means[2]), np.sin(means[2])
    y = np.array([z * cos, z * sin, z])
    jacobian = np.array([
        [cos / means[1], -z * cos / means[1], -z * sin],
        [sin / means[1], -z * sin / means[1], z * cos],
        [1 / means[1], -z / means[1], 0],
    ])  # fmt: skip
    spread = jacobian @ covariance @ jacobian.T
    u = np.sqrt(np.diag(spread))
    yield "JCGM100_H2", {
        "y": dict(zip("RXZ", y)), "u": dict(zip("RXZ", u)), "r_RX": spread[0, 1] / (u[0] * u[1]),
        "r_RZ": spread[0, 2] / (u[0] * u[2]), "r_XZ": spread[1, 2] / (u[1] * u[2]),
    }, 1e-8  # fmt: skip


def thermometer(d):
    t, b = np.array(d["t_C"]) - 20, np.array(d["b_C"])
    line = stats.linregress(t, b)
    s = np.sqrt(np.sum((b - line.intercept - line.slope * t) ** 2) / (len(t) - 2))
    u1, u2 = line.intercept_stderr, line.stderr
    r = -t.sum() / np.sqrt(len(t) * np.sum(t * t))
    yield "JCGM100_H3", {
        "y1": line.intercept, "u1": u1, "y2": line.slope, "u2": u2, "r": r, "s": s, "b30": line.intercept + 10 * line.slope,
        "u_b30": np.sqrt(u1**2 + 100 * u2**2 + 20 * u1 * u2 * r),
    }, 1e-9  # fmt: skip


def water(d):
    kell = lambda t: (999.83952 + 16.945176 * t - 7.9870401e-3 * t**2 - 46.170461e-6 * t**3 + 105.56302e-9 * t**4 - 280.54253e-12 * t**5) / (1 + 16.879850e-3 * t)
    tanaka = lambda t: 999.974950 * (1 - (t - 3.983035) ** 2 * (t + 301.797) / (522528.9 * (t + 69.34881)))
    yield "waterDensity/kell1975", {t: kell(float(t)) for t in d["kell1975"]}, 1e-13
    yield "waterDensity/tanaka2001", {t: tanaka(float(t)) for t in d["tanaka2001"]}, 1e-13


def values(data, name):
    if name == "start-boxes.json":
        return
    yield from guide(data)
    yield from distributions(data)
    yield from impedance(data["JCGM100_H2"])
    yield from thermometer(data["JCGM100_H3"])
    inputs = [(u, nu) for u, nu in data["welchSatterthwaite"]["inputs"]]
    uc = np.sqrt(sum(u * u for u, _ in inputs))
    yield "welchSatterthwaite", {"uc": uc, "nuEff": uc**4 / sum(u**4 / nu for u, nu in inputs)}, 1e-12
    yield "divisors", {"rectangular": 1 / np.sqrt(3), "triangular": 1 / np.sqrt(6), "arcsine": 1 / np.sqrt(2)}, 1e-13
    yield from water(data["waterDensity"])
