"""Worked numbers that follow from a formula: yields, iodometry, char properties, molar masses, solutions, iodine uptake at 0.02 N."""

import math

import numpy as np
from scipy import optimize, stats

INVENTED = "invented"
MEMORY = "from memory"

GIVEN = {
    "activation-yields.json": {
        "yield/*_g": INVENTED,
        "burnOff/*_g": INVENTED,
        "totalYield/carbonisation": INVENTED,
        "totalYield/activation": INVENTED,
        "impregnation/precursor_moist_g": INVENTED,
        "impregnation/*_percent": INVENTED,
        "impregnation/ratio": INVENTED,
        "impregnation/density_g_per_mL": MEMORY,
        "fixedCarbonYield/*_g": INVENTED,
        "fixedCarbonYield/ash_percent": INVENTED,
        "fixedCarbonYield/volatile_percent": INVENTED,
        "fixedCarbonYield/feedAsh_percent": INVENTED,
        "washout/*_mL": INVENTED,
        "washout/start_g_per_L": INVENTED,
        "washout/rinsesTo/*/g_per_L": INVENTED,
        "strongAlkali/cases/*/excess_mol_per_L": INVENTED,
        "fits/washout/volumes_mL/*": INVENTED,
        "fits/washout/conductivity_uS_per_cm/*": INVENTED,
        "fits/washout/water_uS_per_cm": INVENTED,
        "fits/drying/hours/*": INVENTED,
        "fits/drying/mass_g/*": INVENTED,
    },
    "iodometry.json": {
        "iodateStandardisation/*_g": INVENTED,
        "iodateStandardisation/*_mL": INVENTED,
        "backTitration/*_mL": INVENTED,
        "backTitration/thiosulfate_mol_per_L": INVENTED,
        "backTitration/char_g": INVENTED,
        "lossSharing/recovery": INVENTED,
        "lossSharing/leftShare": INVENTED,
    },
    "char-properties.json": {
        "moisture/dish*": INVENTED,
        "totalAsh/dish*": INVENTED,
        "apparentDensity/mass_g": INVENTED,
        "apparentDensity/volume_mL": INVENTED,
        "apparentDensity/moisture_percent": INVENTED,
        "extractDose/dryMass_g": MEMORY,
        "extractDose/moisture_percent": INVENTED,
        "particleSize/openings_mm/*": MEMORY,
        "particleSize/retained_g/*": INVENTED,
        "particleSize/meanOpenings_mm/*": "mid-values of the openings, rounded to 0.01 mm and typed in",
        "particleSize/pan_g": INVENTED,
        "particleSize/panMeanOpening_mm": INVENTED,
        "uptakeOnBasis/*/uptake_mg_g": INVENTED,
        "uptakeOnBasis/*/*_percent": INVENTED,
    },
    "molar-masses.json": {"tolerance_g_per_mol": "decision"},
    "solutions.json": {
        "concentrations/*/percent": INVENTED,
        "concentrations/*/density_g_mL": MEMORY,
        "dilution/wanted_mol_per_L": INVENTED,
        "dilution/volume_mL": INVENTED,
    },
    "iodine-number.json": {
        "constants/**": MEMORY,
        "cases/*/inputs/**": INVENTED,
        "dosage/*/E_mg_g": INVENTED,
        "dosage/*/C_N": INVENTED,
        "dosage/*/N2": INVENTED,
        "standardisation/*/*_mL": INVENTED,
        "standardisation/N1/R_N": INVENTED,
        "standardisation/N2/N1": "the result of the line before",
    },
}

# IUPAC/CIAAW abridged standard atomic weights 2021, from memory.
ATOMIC_WEIGHTS = {
    "H": 1.008, "C": 12.011, "N": 14.007, "O": 15.999, "Na": 22.990, "P": 30.974, "S": 32.06,
    "Cl": 35.45, "K": 39.098, "Ca": 40.078, "Zn": 65.38, "I": 126.90,
}  # fmt: skip


def molar_mass(formula):
    """Sums plain formulas; a full stop joins parts, a leading number multiplies its part."""
    total = 0.0
    for part in formula.split("."):
        digits = len(part) - len(part.lstrip("0123456789"))
        factor, rest = int(part[:digits] or 1), part[digits:]
        i = 0
        while i < len(rest):
            j = i + 1
            while j < len(rest) and rest[j].islower():
                j += 1
            k = j
            while k < len(rest) and rest[k].isdigit():
                k += 1
            total += factor * ATOMIC_WEIGHTS[rest[i:j]] * int(rest[j:k] or 1)
            i = k
    return total


def yields(d):
    y, b, t, i, f, w = (d[k] for k in ("yield", "burnOff", "totalYield", "impregnation", "fixedCarbonYield", "washout"))
    yield "yield/expected_percent", 100 * y["char_g"] / y["precursor_g"], 1e-13
    yield "burnOff/expected_percent", 100 * (b["char_g"] - b["activated_g"]) / b["char_g"], 1e-13
    yield "totalYield/expected", t["carbonisation"] * t["activation"], 1e-13
    dry = i["precursor_moist_g"] * (1 - i["moisture_wet_percent"] / 100)
    solution = dry * i["ratio"] / (i["strength_percent"] / 100)
    yield "impregnation/expected_dry_g", dry, 1e-13
    yield "impregnation/expected_agent_g", dry * i["ratio"], 1e-13
    yield "impregnation/solution_g", solution, 1e-13
    yield "impregnation/solution_mL", solution / i["density_g_per_mL"], 1e-13
    carbon = 1 - (f["ash_percent"] + f["volatile_percent"]) / 100
    yield "fixedCarbonYield/expected_percent", 100 * f["char_g"] / f["precursor_g"] * carbon / (1 - f["feedAsh_percent"] / 100), 1e-13
    share = w["retained_mL"] / (w["retained_mL"] + w["rinse_mL"])
    yield "washout/after", [w["start_g_per_L"] * share**n for n in range(1, 5)], 1e-13
    for k, row in enumerate(w["rinsesTo"]):
        yield f"washout/rinsesTo/{k}/rinses", math.ceil(math.log(row["g_per_L"] / w["start_g_per_L"]) / math.log(share)), 0
    for k, case in enumerate(d["strongAlkali"]["cases"]):
        # [OH] - [H] = c with [OH][H] = 1e-14; hydrogen ions by the root that does not cancel.
        c = case["excess_mol_per_L"]
        hydrogen = 2e-14 / (c + math.sqrt(c * c + 4e-14))
        yield f"strongAlkali/cases/{k}/pH", -math.log10(hydrogen), 1e-12
    yield from washout_fit(d["fits"]["washout"])
    yield from drying_fit(d["fits"]["drying"])


def washout_fit(d):
    """ln of the readings on ln(water + start x the product of V/(V + v)); start and ln V free, and 95 % of ln V by its standard error."""
    volumes, readings = np.array(d["volumes_mL"], float), np.log(d["conductivity_uS_per_cm"])

    def curve(_, start, log_retained):
        left = np.exp(start - np.cumsum(np.log1p(volumes / np.exp(log_retained))))
        return np.log(d["water_uS_per_cm"] + left)

    (_, middle), covariance = optimize.curve_fit(curve, volumes, readings, p0=[12, math.log(40)], xtol=1e-15, ftol=1e-15)
    half = stats.t.ppf(0.975, len(volumes) - 2) * math.sqrt(covariance[1, 1])
    yield "fits/washout/retained_mL", math.exp(middle), 1e-7
    yield "fits/washout/low_mL", math.exp(middle - half), 1e-7
    yield "fits/washout/high_mL", math.exp(middle + half), 1e-7


def drying_fit(d):
    """m = m_end + A exp(-k t); the two linear parameters follow from k, or A and k from m_end for its profile."""
    t, m = np.array(d["hours"], float), np.array(d["mass_g"])
    curve = lambda t, end, a, k: end + a * np.exp(-k * t)
    (end, a, k), _ = optimize.curve_fit(curve, t, m, p0=[12, 20, 0.5], xtol=1e-15, ftol=1e-15)
    best = float(np.sum((m - curve(t, end, a, k)) ** 2))
    limit = best * (1 + stats.f.ppf(0.95, 1, len(t) - 3) / (len(t) - 3))

    def over(held):
        fit = optimize.least_squares(lambda p: m - curve(t, held, *p), [a, k], x_scale=[a, k], xtol=1e-15, ftol=1e-15, gtol=1e-15)
        return 2 * fit.cost - limit

    yield "fits/drying/final_g", end, 1e-9
    yield "fits/drying/rate_per_h", k, 1e-7
    yield "fits/drying/profileLow_g", optimize.brentq(over, end - 0.2, end, xtol=1e-13), 1e-8
    yield "fits/drying/profileHigh_g", optimize.brentq(over, end, end + 0.2, xtol=1e-13), 1e-8


def iodometry(d):
    s, b, loss = d["iodateStandardisation"], d["backTitration"], d["lossSharing"]
    iodate, iodine = molar_mass("KIO3"), molar_mass("I2")
    yield "iodateStandardisation/thiosulfate_mol_per_L", 6 * s["iodate_g"] / iodate / (s["titre_mL"] / 1000), 1e-13
    reacted = (b["blankTitre_mL"] - b["titre_mL"]) / 1000 * b["thiosulfate_mol_per_L"]
    mass = reacted * iodine / 2 * 1000 * b["liquid_mL"] / b["aliquot_mL"]
    yield "backTitration/uptake_mg_per_g", mass / b["char_g"], 1e-13
    yield "iodateSolution_g_per_L_0_1N", iodate / 6 / 10, 1e-13
    yield "thiosulfatePentahydrate_g_per_L_0_1N", molar_mass("Na2S2O3.5H2O") / 10, 1e-13
    yield "iodine_g_per_L_0_1N", iodine / 2 / 10, 1e-13
    yield "dropHides/mass_mg", 0.05 / 1000 * 0.1 * iodine / 2 * 1000 * 100 / 25, 1e-13
    yield "lossSharing/fromDosed", loss["recovery"] - loss["leftShare"], 1e-13
    yield "lossSharing/fromLeft", 1 - loss["leftShare"] / loss["recovery"], 1e-13


def properties(d):
    m, a, rho, e, p = (d[k] for k in ("moisture", "totalAsh", "apparentDensity", "extractDose", "particleSize"))
    wet, dry = m["dishAndSample_g"] - m["dish_g"], m["dishAfter_g"] - m["dish_g"]
    yield "moisture/wetBasis_percent", 100 * (wet - dry) / wet, 1e-12
    yield "moisture/dryBasis_percent", 100 * (wet - dry) / dry, 1e-12
    yield "totalAsh/percent", 100 * (a["dishAfter_g"] - a["dish_g"]) / (a["dishAndSample_g"] - a["dish_g"]), 1e-12
    as_received = rho["mass_g"] / rho["volume_mL"]
    yield "apparentDensity/asReceived_g_mL", as_received, 1e-13
    yield "apparentDensity/dry_g_mL", as_received * (1 - rho["moisture_percent"] / 100), 1e-13
    yield "extractDose/sample_g", e["dryMass_g"] / (1 - e["moisture_percent"] / 100), 1e-13
    yield from sieving(p)
    for i, row in enumerate(d["uptakeOnBasis"]):
        share = (1 - row["moisture_percent"] / 100) * (1 - row["ash_percent"] / 100)
        yield f"uptakeOnBasis/{i}/expected_mg_g", row["uptake_mg_g"] / share, 1e-13


def sieving(p):
    openings, retained = np.array(p["openings_mm"]), np.array(p["retained_g"], float)
    total = retained.sum() + p["pan_g"]
    passing = 100 * (total - np.cumsum(retained)) / total
    mean = (np.dot(p["meanOpenings_mm"], retained) + p["panMeanOpening_mm"] * p["pan_g"]) / total

    def size_at(percent):
        return float(np.exp(np.interp(percent, passing[::-1], np.log(openings[::-1]))))

    yield "particleSize/passing_percent", passing, 1e-12
    yield "particleSize/meanDiameter_mm", mean, 1e-13
    yield "particleSize/effectiveSize_mm", size_at(10), 1e-12
    yield "particleSize/sixtyPercentSize_mm", size_at(60), 1e-12
    yield "particleSize/uniformityCoefficient", size_at(60) / size_at(10), 1e-12


def solutions(d):
    for i, row in enumerate(d["concentrations"]):
        grams_per_litre = 10 * row["percent"] * row["density_g_mL"]
        yield f"concentrations/{i}/mol_per_L", grams_per_litre / molar_mass(row["solute"]), 1e-13
    stock = d["dilution"]
    carbonate = 10 * 30 * 1.298 / molar_mass("K2CO3")
    yield "dilution/stock_mol_per_L", carbonate, 1e-13
    yield "dilution/stock_mL", stock["wanted_mol_per_L"] * stock["volume_mL"] / carbonate, 1e-13
    # The file has ten digits of these two.
    first = 25.0 * 0.1 / 25.05
    yield "aliquotStandardisation/thiosulfate_N", first, 6e-10
    yield "aliquotStandardisation/iodine_N", 25.15 * first / 25.0, 6e-10


def iodine_number(d):
    a_factor, b_factor, df = 12693.0, 126.93, (100 + 10) / 50
    for i, case in enumerate(d["cases"]):
        at, x = f"cases/{i}/expected", case["inputs"]
        m, s = np.array(x["M"]), np.array(x["S"])
        a, b = x["N2"] * a_factor, x["N1"] * b_factor
        per_gram, residual = (a - df * b * s) / m, x["N1"] * s / 50
        lx, ly = np.log10(residual), np.log10(per_gram)
        line = stats.linregress(lx, ly)
        ends = np.log10(0.02)
        scatter = math.sqrt(np.sum((ly - line.intercept - line.slope * lx) ** 2))
        se = scatter * math.sqrt(1 / 3 + (ends - lx.mean()) ** 2 / np.sum((lx - lx.mean()) ** 2))
        middle, half = line.intercept + line.slope * ends, stats.t.ppf(0.975, 1) * se
        yield f"{at}/A", a, 1e-13
        yield f"{at}/B", b, 1e-13
        yield f"{at}/DF", df, 1e-13
        yield f"{at}/XoverM_mg_g", per_gram, 1e-12
        yield f"{at}/C_N", residual, 1e-12
        yield f"{at}/inWindow", (residual >= 0.008) & (residual <= 0.04), 0
        yield f"{at}/slope_1_over_n", line.slope, 1e-10
        yield f"{at}/intercept_log10", line.intercept, 1e-11
        yield f"{at}/K_log10fit", 10**line.intercept, 1e-10
        yield f"{at}/r", line.rvalue, 1e-10
        yield f"{at}/r2", line.rvalue**2, 1e-10
        yield f"{at}/rAccepted", bool(line.rvalue >= 0.995), 0
        yield f"{at}/iodineNumber_mg_g", 10**middle, 1e-10
        # The points of the first case lie on their line to 5e-5 of a decade, so that the scatter keeps ten digits only.
        yield f"{at}/se_log10", se, 1e-8
        yield f"{at}/ci95_mg_g", [10 ** (middle - half), 10 ** (middle + half)], 1e-10
    for i, row in enumerate(d["dosage"]):
        mass = (row["N2"] * a_factor - df * row["C_N"] * b_factor * 50) / row["E_mg_g"]
        yield f"dosage/{i}/M_g", mass, 1e-13
    n = d["standardisation"]
    first = n["N1"]["P_mL"] * n["N1"]["R_N"] / n["N1"]["S_mL"]
    yield "standardisation/N1/expected", first, 1e-13
    yield "standardisation/N2/expected", n["N2"]["S_mL"] * first / n["N2"]["I_mL"], 1e-13


def masses(d):
    for i, row in enumerate(d["formulas"]):
        yield f"formulas/{i}/molarMass_g_per_mol", molar_mass(row["formula"]), 1e-13


def values(data, name):
    makers = {
        "activation-yields.json": yields,
        "iodometry.json": iodometry,
        "char-properties.json": properties,
        "molar-masses.json": masses,
        "solutions.json": solutions,
        "iodine-number.json": iodine_number,
    }
    return makers[name](data)
