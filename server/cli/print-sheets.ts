/**
 * Writes sheets into a folder, each whole or not at all; one that cannot be set or written never keeps the others.
 */

import { createPress, type Press } from "../press/press";
import { fileProblemText, joinPath } from "../project";
import type { Sheet } from "../sheet/blocks";
import { renderHtml } from "../sheet/html";
import { harmless } from "./display";
import { counted, type Io } from "./io";
import { namerOf } from "./open";

/** A form a sheet is printed in: the ending of its file. */
export type Form = "pdf" | "html";

/** A sheet to print; without a name it cannot be, since another has the same. */
export interface Job {
  readonly sheet: Sheet;
  /** Of its file, without the ending. */
  readonly name: string | null;
}

/** The files a sheet was written to, by form; those that could not be written are missing. */
export type Written = { readonly [form in Form]?: string };

const SAME_NAME = "Another in this file has the same document number and name. Change one of them.";

/** Prints every sheet in every form, and tells where each went or why it did not. */
export async function printSheets(
  jobs: readonly Job[],
  forms: readonly Form[],
  folder: string,
  io: Io,
): Promise<Written[]> {
  const press = createPress(forms.includes("pdf") ? jobs.length : 0);
  const all: Written[] = [];
  for (const [i, { sheet, name }] of jobs.entries()) {
    const title = harmless(sheet.title);
    const written: { [form in Form]?: string } = {};
    if (name === null) tellWrong(title, SAME_NAME, io);
    for (const form of name === null ? [] : forms) {
      const file = `${name}.${form}`;
      io.progress(`Printing ${i + 1} of ${jobs.length}: ${title} …`);
      const told = await printOne(sheet, joinPath(folder, file), form, press, io);
      io.progress("");
      if ("wrong" in told) tellWrong(title, told.wrong, io);
      else {
        written[form] = file;
        io.out(`${harmless(namerOf(io)(joinPath(folder, file)))}  ${told.done}\n`);
      }
    }
    all.push(written);
  }
  press.close();
  return all;
}

async function printOne(
  sheet: Sheet,
  path: string,
  form: Form,
  press: Press,
  io: Io,
): Promise<{ readonly done: string } | { readonly wrong: string }> {
  const made = form === "pdf" ? await press.set(sheet) : { html: renderHtml(sheet) };
  if ("error" in made) return { wrong: made.error };
  const problem = io.files.write(path, "html" in made ? made.html : made.pdf);
  if (problem) return { wrong: `${namerOf(io)(path)} could not be written. ${fileProblemText(problem)}` };
  return { done: `${"pages" in made ? `${counted(made.pages, "page")}, ` : ""}${harmless(sheet.title)}` };
}

function tellWrong(title: string, why: string, io: Io): void {
  io.err(`${io.paintErr("error", "error")}: “${title}” is not printed. ${harmless(why)}\n`);
}
