export * from "./run";
