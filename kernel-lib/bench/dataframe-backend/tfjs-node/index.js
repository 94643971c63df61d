// What danfojs-node needs of the native tensor package, over the pure JavaScript backend: the functions of tfjs-core, the CPU backend, and the methods that danfojs chains on tensors.
const core = require("@tensorflow/tfjs-core");

// Else the backend prints a banner that advises installing the native package.
core.env().set("PROD", true);
require("@tensorflow/tfjs-backend-cpu");

const chained = [
	"abs",
	"add",
	"argMax",
	"argMin",
	"cast",
	"concat",
	"cumsum",
	"div",
	"divNoNan",
	"equal",
	"exp",
	"expandDims",
	"gather",
	"greater",
	"greaterEqual",
	"less",
	"lessEqual",
	"log",
	"logicalAnd",
	"logicalOr",
	"max",
	"mean",
	"min",
	"mod",
	"mul",
	"notEqual",
	"pow",
	"reshape",
	"round",
	"slice",
	"sqrt",
	"square",
	"squeeze",
	"sub",
	"sum",
	"transpose",
];
for (const name of chained) {
	if (name in core.Tensor.prototype) continue;
	core.Tensor.prototype[name] = function chain(...operands) {
		return core[name](this, ...operands);
	};
}

module.exports = { ...core };
// Only df.sample() and series.sample() ask for it, so it is loaded when they do.
Object.defineProperty(module.exports, "data", {
	enumerable: true,
	get: () => require("@tensorflow/tfjs-data"),
});
