/**
 * Brings what setting type needs from the installed packages: the Typst compiler and the font files.
 *
 * Packages are looked for from where this module (or the bundle it is part of) lies, at the moment they are needed, so
 * that everything but printing to PDF works without them.
 */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { printError } from "../phrases/print";
import type { Typesetter } from "../sheet/pdf";

/** Families in the order they are tried: letters, then signs such as ≤ and →, then Japanese, then further signs. */
const FAMILIES: readonly { readonly name: string; readonly files: readonly string[] }[] = [
  {
    name: "Noto Sans",
    files: [
      "noto-sans/400Regular/NotoSans_400Regular.ttf",
      "noto-sans/400Regular_Italic/NotoSans_400Regular_Italic.ttf",
      "noto-sans/700Bold/NotoSans_700Bold.ttf",
      "noto-sans/700Bold_Italic/NotoSans_700Bold_Italic.ttf",
    ],
  },
  { name: "Noto Sans Math", files: ["noto-sans-math/400Regular/NotoSansMath_400Regular.ttf"] },
  {
    name: "Noto Sans JP",
    files: [
      "noto-sans-jp/400Regular/NotoSansJP_400Regular.ttf",
      "noto-sans-jp/700Bold/NotoSansJP_700Bold.ttf",
    ],
  },
  { name: "Noto Sans Symbols", files: ["noto-sans-symbols/400Regular/NotoSansSymbols_400Regular.ttf"] },
  { name: "Noto Sans Symbols 2", files: ["noto-sans-symbols-2/400Regular/NotoSansSymbols2_400Regular.ttf"] },
];

/** The font files, as paths in `@expo-google-fonts`. */
export const FONT_FILES: readonly string[] = FAMILIES.flatMap((family) => family.files);

/** Loads compiler and fonts (about 14 MB; keep the result for further sheets). The error says what is missing. */
export function loadTypesetter(): { readonly typesetter: Typesetter } | { readonly error: string } {
  try {
    const require = createRequire(import.meta.url);
    const { NodeCompiler } = require("@myriaddreamin/typst-ts-node-compiler");
    return {
      typesetter: {
        families: FAMILIES.map((family) => family.name),
        fonts: FONT_FILES.map((file) => readFileSync(require.resolve(`@expo-google-fonts/${file}`))),
        create: (args) => NodeCompiler.create(args),
      },
    };
  } catch (problem) {
    const cause = problem instanceof Error ? (problem.message.split("\n")[0] ?? "") : String(problem);
    return { error: printError({ code: "no-fonts", cause }) };
  }
}
