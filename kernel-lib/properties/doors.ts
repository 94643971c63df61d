import { doorFor, type ResultKind } from "../quantity";

export const requireSheet = doorFor({
	parts: ["samples", "determinations", "splits", "limits"],
	expected:
		"a table of properties, as properties.readProperties(path) returns it",
});

/** What a property of a char is known by. */
export const propertyKind: ResultKind = {
	parts: ["sample", "property", "outcome", "agreement"],
	expected: "a property, as properties.charProperties(sheet) lists them",
};

/** What the uptake of a flask is known by. */
export const uptakeKind: ResultKind = {
	parts: ["flask", "uptake", "perGram"],
	expected: "an uptake, as uptake.uptakes(trial) lists them",
};
