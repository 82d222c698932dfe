/**
 * `torquil print`: sheets.
 */
import { type Command } from "./io";
export const print: Command = async () => 0;
