/** Words of bench sheets that name no substance. Any other word that is not on the list of substances counts as an unknown name, so that a missing word here asks, and never hides. */
const words = new Set(
	`
	a an the some and or of in on at by to for from with into out up down off over under until till then after before while during again once twice thrice only as is was were be been it its no not none
	nothing never free without instead kein keine sans senza any all each every one two three four five six seven eight nine ten half quarter first second third fourth fifth last next more less about approx approximately ca circa per each other same
	than that this which new old own very well
	untreated treated treatment control controls blank blanks raw plain original reference standard sample samples batch batches lot lots set series group portion portions part parts test trial run runs
	slow slowly fast quick quickly thrice monday tuesday wednesday thursday friday saturday sunday morning evening red green blue white black yellow name unsoaked
	soak soaked soaking soaks bath baths dip dipped steep steeped immersed impregnated impregnation loaded coated sprayed mixed mixing mix stirred stirring shaken boiled boiling boil simmered heated
	heating warm warmed hot cold cool cooled cooling lukewarm room temperature chilled overnight night nights day days hour hours minute minutes min h hr hrs s sec week weeks month long short time times
	wash washed washing washes rinse rinsed rinses rinsing drain drained draining filtered filter decanted pressed squeezed dry dried drying air oven vacuum sun wet damp moist neutral neutralised neutralized
	neutrality ph clean clear colourless saturated dilute diluted concentrated conc strong stronger weak weaker mild light heavy fresh freshly aged solution solutions liquor liquid liquids suspension slurry paste
	powder powdered crystals crystalline granules granular lumps pellets ground crushed milled sieved fine coarse grain grains size mesh
	anhydrous hydrate monohydrate dihydrate trihydrate tetrahydrate pentahydrate hexahydrate heptahydrate octahydrate nonahydrate decahydrate aqueous aq technical grade pure purified analytical reagent household
	commercial food kitchen garden
	fire fired firing refired firings kiln kilns retort furnace oven lid lids closed open covered uncovered kept back hold held stored left standing stand jar jars flask flasks pot drum bucket tub bag box tin
	bottle beaker glass steel
	char chars charcoal biochar carbon activated activation activate activating carbonised carbonized charred charring pyrolysed pyrolysis quenched quench burnt ash-free
	wood hazelnut shell shells coconut willow oak beech birch pine spruce bamboo straw husk husks rice nut nuts stone stones peach cherry olive maize corn cob cobs
	ratio mass weight volume by w v wt vol percent pct per cent mol mole moles mmol molar normal litre litres liter liters l ml dl gram grams gramme g kg mg mm cm m n ppm ppb bar psi k c f x tsp tbsp teaspoon teaspoons
	tablespoon tablespoons cup cups spoon spoons pinch handful drop drops
	number no. nr step steps stage stages process recipe method same usual
	tap rinsing bench lab laboratory
	steamed steaming acid-washed
	und mit in aus von bis dann nach ohne kalt warm heiss gespult gewaschen getrocknet unbehandelt kontrolle probe ofen stunden tage
	et avec dans de du des la le les eau puis apres lave rince seche temoin non traite
	y con en de del la el los las luego despues lavado enjuagado seco sin tratar
	`
		.trim()
		.split(/\s+/),
);

/** Numbers, numbers with a unit (10h, 0.1n, 600c), and labels such as K1. */
const numberOrLabel = /^(?:\p{N}+\p{L}{0,4}|\p{L}\p{N}{0,3})$/u;

export function isOrdinary(word: string): boolean {
	return words.has(word) || numberOrLabel.test(word);
}
