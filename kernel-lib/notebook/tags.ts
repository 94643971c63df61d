/** Tag of the cell that says which analysis of its sheet a run was. */
export const analysesTag = "charledger-analyses";
