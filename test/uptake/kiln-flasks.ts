/** Four flasks of two firings, one of them of none, one that ran dry. */
import { linkFirings } from "../../kernel-lib/uptake/index";
import { kilnOf } from "../activation/firings";
import { charRow, steps } from "./sheets";

export const kiln = kilnOf([
	{
		firing: "kiln 3",
		precursor: "hazelnut shell",
		"precursor mass (g)": 500,
		"precursor moisture, wet basis (%)": 8,
		"fired mass (g)": 138,
		"step 1 temperature (°C)": 500,
	},
	{
		firing: "potash 1",
		precursor: "char of kiln 3",
		"precursor batch": "kiln 3",
		"precursor mass (g)": 20,
		agent: "K2CO3",
		"agent mass (g)": 10,
		"step 1 temperature (°C)": 400,
		"step 2 temperature (°C)": 800,
		"step 2 hold (min)": 60,
		"product mass (g)": 15,
		"energy used (kWh)": 2,
	},
]);
export const { uptakes } = steps([
	charRow("1", { soak: "potash 1", "char batch": "kiln 3" }),
	charRow("2", { soak: "water 1", "char batch": "kiln 3" }),
	charRow("3", { soak: "water 1", "char batch": "kiln 9" }),
	charRow("4", { soak: "potash 1", "titre (mL)": 0 }),
]);
export const list = linkFirings(uptakes, kiln);
export const [one, two, three, dry] = list;

/** More product than went in: the yield of the second firing cannot be. */
export const impossibleKiln = kilnOf([
	{
		firing: "kiln 3",
		precursor: "hazelnut shell",
		"precursor mass (g)": 500,
		"fired mass (g)": 138,
	},
	{
		firing: "potash 1",
		precursor: "char of kiln 3",
		"precursor batch": "KILN 3",
		"precursor mass (g)": 20,
		"step 1 temperature (°C)": 800,
		"step 1 hold (min)": 60,
		"step 1 steam (g/min)": 2,
		"product mass (g)": 26,
	},
]);
