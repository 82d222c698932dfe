/** All tests that run inside the extension host; VS Code loads the bundle made of this and calls `run`. */
import "./findings";
import "./lookups";
import "./edits";
import "./tasks";

export { run } from "./runner";
