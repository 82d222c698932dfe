/**
 * `torquil format`: lays files out in the usual way, or says which are not.
 */
import { type Command } from "./io";
export const format: Command = async () => 0;
