/** Refusals shared by the statistics: each says what was found, what was expected, and for which quantity. */

export function requireProbability(what: string, value: number): void {
	if (!(value >= 0 && value <= 1)) {
		throw new RangeError(
			`${what}: probability is ${value}; expected a number from 0 to 1.`,
		);
	}
}

/** For levels and error rates, which 0 and 1 would make meaningless. */
export function requireLevel(what: string, value: number): void {
	if (!(value > 0 && value < 1)) {
		throw new RangeError(
			`${what}: the level is ${value}; expected a number above 0 and below 1, for example 0.05.`,
		);
	}
}

export function requireDegreesOfFreedom(what: string, value: number): void {
	if (!(value > 0)) {
		throw new RangeError(
			`${what}: degrees of freedom are ${value}; expected a number above 0 (or Infinity).`,
		);
	}
}

export function requireNumber(what: string, value: number): void {
	if (Number.isNaN(value))
		throw new RangeError(`${what}: the argument is not a number.`);
}

export function requireFinite(what: string, value: number): void {
	if (!Number.isFinite(value))
		throw new RangeError(`${what}: found ${value}; expected a finite number.`);
}

export function requireObservations(
	what: string,
	values: ArrayLike<number>,
	least: number,
): void {
	if (values.length < least) {
		throw new RangeError(
			`${what}: ${values.length} observation(s) given; at least ${least} needed.`,
		);
	}
	for (let index = 0; index < values.length; index++) {
		if (!Number.isFinite(values[index])) {
			throw new RangeError(
				`${what}: observation ${index + 1} is ${values[index]}; expected a finite number.`,
			);
		}
	}
}
