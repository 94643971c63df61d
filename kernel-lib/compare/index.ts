export * from "./verdict";
