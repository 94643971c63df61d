export * from "./flask-uptake";
