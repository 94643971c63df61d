import { composition } from "./formula";

/** Ends of words that only names of chemicals have; "plate", "stone" and "outside" have none of them. */
const chemicalEnd =
	/(?:azide|nitrate|nitrite|chloride|fluoride|bromide|iodide|chlorate|chlorite|chromate|manganate|cyanide|cyanate|sul(?:f|ph)ate|sul(?:f|ph)ite|sul(?:f|ph)ide|phosphate|phosphite|carbonate|acetate|oxalate|borate|silicate|hydroxide|peroxide|oxide|hydride|carbide|benzene|toluene|xylene|phenol|amine|amide|aldehyde|nitrile|hexane|heptane|pentane|chloroform|methane|ethane|ethylene|acid|chlorid|chlorat|sulfid|peroxid|azid|cloruro|solfuro|sulfuro|nitrato|clorato|fluoruro|cianuro|idrossido|ossido|nitrat|sulfat|phosphat|cyanid|säure|saure)s?$/iu;

/** A single symbol or a label such as K1 is no formula that says anything. */
const formulaOfTwo = /^(?=(?:.*[A-Z]){2})(?=.*\d).{3,}$/u;

/** The part of an unlisted name that looks like a chemical, by its end or as a formula of two elements and a number, with the word before it; "" where none does. */
export function chemicalIn(written: string): string {
	const words = written.split(/\s+/u);
	const at = words.findIndex(
		(word) =>
			chemicalEnd.test(word) ||
			(formulaOfTwo.test(word) && composition(word).ok),
	);
	return words.slice(Math.max(0, at - 1), at + 1).join(" ");
}
