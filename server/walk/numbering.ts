/**
 * Numbers of steps and checks, for whoever has the walk in hand; the model is where they are made.
 */
export { followed, type Numbered, numbering, numbersByLine } from "../model";
