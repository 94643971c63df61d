/**
 * The kinds of quantity on a bench, each with its base unit. Base units are coherent, so that a product or quotient of base values needs no factor:
 * grams, litres, moles, seconds, metres, kelvin, joules. To add a kind, add a line here, its units in `units.ts` and what it multiplies to in `Products`.
 */
export const baseUnits = {
	ratio: "1",
	mass: "g",
	volume: "L",
	amount: "mol",
	equivalents: "eq",
	concentration: "mol/L",
	normality: "eq/L",
	massConcentration: "g/L",
	density: "g/L",
	molarMass: "g/mol",
	equivalentsPerAmount: "eq/mol",
	uptake: "g/g",
	amountPerMass: "mol/g",
	volumePerMass: "L/g",
	temperature: "K",
	temperatureDifference: "K (difference)",
	perTemperature: "1/K",
	time: "s",
	perTime: "1/s",
	length: "m",
	area: "m2",
	areaPerMass: "m2/g",
	areaPerAmount: "m2/mol",
	energy: "J",
	energyPerAmount: "J/mol",
	absorbance: "absorbance",
	conductivity: "S/m",
	pH: "pH",
	money: "money",
	price: "money/g",
	energyPrice: "money/J",
	heatingRate: "K/s",
	massFlow: "g/s",
	flow: "L/s",
} as const;

export type Kind = keyof typeof baseUnits;

/** What two kinds multiply to. Order does not matter; `ratio` times anything is that thing. Quotients follow from the same table. */
export const products = {
	"concentration*volume": "amount",
	"normality*volume": "equivalents",
	"massConcentration*volume": "mass",
	"density*volume": "mass",
	"amount*molarMass": "mass",
	"concentration*molarMass": "massConcentration",
	"amount*equivalentsPerAmount": "equivalents",
	"concentration*equivalentsPerAmount": "normality",
	"uptake*mass": "mass",
	"amountPerMass*mass": "amount",
	"amountPerMass*molarMass": "uptake",
	"volumePerMass*mass": "volume",
	"areaPerMass*mass": "area",
	"areaPerAmount*amount": "area",
	"areaPerAmount*amountPerMass": "areaPerMass",
	"perTemperature*temperatureDifference": "ratio",
	"perTime*time": "ratio",
	"energyPerAmount*amount": "energy",
	"flow*time": "volume",
	"massFlow*time": "mass",
	"heatingRate*time": "temperatureDifference",
	"price*mass": "money",
	"energyPrice*energy": "money",
	"length*length": "area",
	"area*length": "volume",
} as const;

type Products = typeof products;

/** The kind of a product, `never` where the table has none. */
export type ProductOf<A extends Kind, B extends Kind> = A extends "ratio"
	? B
	: B extends "ratio"
		? A
		: `${A}*${B}` extends keyof Products
			? Products[`${A}*${B}`]
			: `${B}*${A}` extends keyof Products
				? Products[`${B}*${A}`]
				: never;

/** The kinds that A may be multiplied by. */
export type WhatMultiplies<A extends Kind> = {
	[B in Kind]: [ProductOf<A, B>] extends [never] ? never : B;
}[Kind];

/** The partners that multiply with B to A. */
type Partner<A extends Kind, B extends Kind> = {
	[C in Kind]: [ProductOf<B, C>] extends [never]
		? never
		: ProductOf<B, C> extends A
			? C
			: never;
}[Kind];

/** A mass per volume may be a mass concentration or a density: `per` means the first, as the table does. */
type FirstMeant<C extends Kind> = "massConcentration" extends C
	? Exclude<C, "density">
	: C;

/** The kind of A divided by B: `ratio` for like kinds, else the partner that multiplies with B to A. */
export type QuotientOf<A extends Kind, B extends Kind> = B extends "ratio"
	? A
	: A extends B
		? "ratio"
		: FirstMeant<Partner<A, B>>;

/** The kinds that A may be divided by. */
export type WhatDivides<A extends Kind> = {
	[B in Kind]: [QuotientOf<A, B>] extends [never] ? never : B;
}[Kind];

const productTable = new Map<string, Kind>(
	Object.entries(products) as [string, Kind][],
);

/** Run-time twin of `ProductOf`: the kind, or "" where the two cannot be multiplied. */
export function productKind(a: Kind, b: Kind): Kind | "" {
	if (a === "ratio") return b;
	if (b === "ratio") return a;
	return productTable.get(`${a}*${b}`) ?? productTable.get(`${b}*${a}`) ?? "";
}

/** Run-time twin of `QuotientOf`. Where two kinds would do (g/L is a density and a mass concentration), the first in the table is meant. */
export function quotientKind(a: Kind, b: Kind): Kind | "" {
	if (b === "ratio") return a;
	if (a === b) return "ratio";
	for (const [pair, result] of productTable) {
		if (result !== a) continue;
		const [left, right] = pair.split("*") as [Kind, Kind];
		if (left === b) return right;
		if (right === b) return left;
	}
	return "";
}

/** A kind in words, with its article: "a mass concentration", "an uptake". */
export function kindText(kind: string): string {
	const words = kind.replace(/[A-Z]/g, (letter) =>
		kind === "pH" ? letter : ` ${letter.toLowerCase()}`,
	);
	return `${/^[aeiou]/.test(words) ? "an" : "a"} ${words}`;
}
