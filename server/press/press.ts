/**
 * Sets sheets as PDF: a few in this process, many in processes beside it. The compiler keeps some megabytes of each
 * sheet it has set, so a process is renewed after a while.
 */
import { type ChildProcess, fork } from "node:child_process";
import { loadTypesetter } from "../project/fonts";
import type { Sheet } from "../sheet/blocks";
import { renderPdf } from "../sheet/pdf";

/** A sheet as PDF with its number of pages, or why there is none. */
export type Pressed = { readonly pdf: Uint8Array; readonly pages: number } | { readonly error: string };

export interface Press {
  readonly set: (sheet: Sheet) => Promise<Pressed>;
  /** Ends what the press still has running. */
  readonly close: () => void;
}

/** The argument by which this program is started as a press. */
export const PRESS = "--press";

/** Up to so many sheets are set in this process. */
const FEW = 8;
const SHEETS_A_PROCESS = 50;

/** A press for about so many sheets. The program that asks for it must call `servePress` when it is started with PRESS. */
export function createPress(sheets: number): Press {
  return sheets <= FEW ? { set: setterHere(), close: () => undefined } : pressBeside();
}

/** Sets the sheets that the process which started this one sends. */
export function servePress(): void {
  const set = setterHere();
  process.on("message", (sheet: Sheet) => {
    set(sheet).then((pressed) => process.send?.(pressed));
  });
  process.on("disconnect", () => process.exit());
}

/** Loads compiler and fonts when the first sheet comes. */
function setterHere(): Press["set"] {
  let loaded: ReturnType<typeof loadTypesetter> | undefined;
  return async (sheet) => {
    loaded ??= loadTypesetter();
    if ("error" in loaded) return { error: loaded.error };
    const result = renderPdf(sheet, loaded.typesetter);
    return "error" in result ? { error: result.error.message } : result;
  };
}

/** A press in a process beside this one, which may be kept: what it has set leaves nothing behind here. */
export function pressBeside(): Press {
  let child: ChildProcess | undefined;
  let done = 0;
  const close = (): void => {
    if (child?.connected) child.disconnect();
    child = undefined;
  };
  return {
    close,
    set: async (sheet) => {
      if (done++ % SHEETS_A_PROCESS === 0) close();
      child ??= fork(process.argv[1] as string, [PRESS], {
        serialization: "advanced",
        // This program may be talking to somebody over its own.
        stdio: ["ignore", "ignore", "inherit", "ipc"],
      });
      const pressed = await ask(child, sheet);
      if (!child.connected) child = undefined;
      return pressed;
    },
  };
}

/** Sends a sheet and waits for its PDF; a process that ends instead is an error. */
function ask(child: ChildProcess, sheet: Sheet): Promise<Pressed> {
  return new Promise((resolve) => {
    const ended = (): void =>
      answer({
        error:
          "The process that sets PDF ended early: there may be too little memory. Print fewer at a time.",
      });
    const answer = (pressed: Pressed): void => {
      child.off("message", answer);
      child.off("exit", ended);
      child.off("error", ended);
      resolve(pressed);
    };
    child.on("message", answer);
    child.on("exit", ended);
    child.on("error", ended);
    child.send(sheet);
  });
}
