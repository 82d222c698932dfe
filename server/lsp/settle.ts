/**
 * Puts work off until the messages that have come already are taken in: a burst of changes is looked at once, and a
 * single one at once. No clock is involved.
 */

/** How many rounds of the event loop must pass without a change: one message is taken in each. */
const QUIET_ROUNDS = 2;

/** Makes a function that asks for the work to be done soon. */
export function settling(work: () => void): () => void {
  let quiet = 0;
  let waiting = false;
  const look = (): void => {
    if (++quiet < QUIET_ROUNDS) {
      setImmediate(look);
      return;
    }
    waiting = false;
    work();
  };
  return () => {
    quiet = 0;
    if (waiting) return;
    waiting = true;
    setImmediate(look);
  };
}
