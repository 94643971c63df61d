/** What is large: up to these limits everything stands on the page, beyond them a part of it does, and the page says which and where the rest is. All of them are decisions of ours. */

/** Rows of a table: some sixty flasks with their blanks and leachates. */
export const wholeRows = 80;

/** Lines of a ledger: some hundred flasks. */
export const wholeLedger = 5000;

/** Characters (base64) of an input file, or of results.json, that a page carries as it is; a larger one is compressed. */
export const insideAsRead = 500_000;

/** Characters (base64) that compressed tables and the compressed ledger may add to a page, and to its notebook: 5 MB. */
export const insideThePage = 5_000_000;

/** Flasks that the differences of a comparison weigh, all of them together, up to which the ledger and results.json have them one by one: some hundred flasks. */
export const mostWeighed = 1000;
