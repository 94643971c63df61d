export { agentsIn, type SoakAgent, soakAgents } from "./soak";
