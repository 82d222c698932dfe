/**
 * Whole forms to fill in: what a writer writes many times a day, with a stop for each thing that is theirs. A body is
 * in the usual form when each stop keeps the text it has; a test holds it to that.
 */
import { type Context, constructs } from "../../grammar";
import { HAZARDS } from "../walk";

/** One form to fill in. */
export interface Snippet {
  /** The word it begins with, by which it is found. */
  readonly word: string;
  /** What stands behind the word, as it is shown before it is chosen. */
  readonly shape: string;
  /** The kinds of block it may stand in. */
  readonly within: readonly Context[];
  /**
   * Lines without their common indentation. `‹1:text›` is a stop with what stands there at first, `‹1:a|b›` one of
   * several; the same number is filled in together.
   */
  readonly body: string;
  readonly about: string;
}

const FLOW: readonly Context[] = ["section", "procedure"];
const ACTS: readonly Context[] = ["acts", "check"];

const snippet = (
  word: string,
  shape: string,
  within: readonly Context[],
  body: readonly string[],
  about = constructs.get(word)?.about ?? "",
): Snippet => ({ word, shape, within, body: body.join("\n"), about });

/** The three parts of a caution, to start from. */
function caution(word: "danger" | "warning" | "caution" | "notice"): Snippet {
  const usual = Object.entries(HAZARDS).filter(([, row]) => row.least === word);
  const others = Object.keys(HAZARDS).filter((name) => !usual.some(([own]) => own === name));
  const [first] = usual;
  const names = [...usual.map(([name]) => name), ...others];
  const [hazard = "", can = "", so = ""] = first?.[1].says ?? [];
  return snippet(
    word,
    "… { can … so … }",
    ["procedure", "section", ...ACTS],
    [`${word} ‹1:${names.join("|")}› {`, `  "‹2:${hazard}›"`, `  can "‹3:${can}›"`, `  so  "‹4:${so}›"`, "}"],
  );
}

export const SNIPPETS: readonly Snippet[] = [
  snippet(
    "machine",
    '… "…" { … }',
    ["file"],
    [
      // Names are the writer's own; those here only show the shape.
      'machine ‹1:name› "‹2:Title›" {',
      '  part ‹3:cover› "‹4:Cover›"',
      "",
      '  fastener ‹5:cover-bolts› "‹6:Cover bolts›" {',
      "    secures ‹3:cover›",
      "    thread  ‹7:M8›",
      "    class   ‹8:8.8›",
      "    ‹9:dry|as supplied›",
      "    count   ‹10:4›",
      "    tighten ‹11:22 N·m›",
      "  }",
      "}",
    ],
  ),
  snippet(
    "procedure",
    '… "…" { … }',
    ["file"],
    [
      'procedure ‹1:name› "‹2:Title›" {',
      "  on ‹3:machine›",
      '  document "‹4:Number›"',
      "  status draft",
      "",
      '  section "‹5:Strip›" {',
      '    step "‹6:First›" {',
      "      ‹7:remove|loosen|open|drain› ‹8:thing›",
      "    }",
      "  }",
      "}",
    ],
  ),
  snippet(
    "part",
    '… "…" { … }',
    ["machine"],
    ['part ‹1:name› "‹2:Title›" {', "  behind   ‹3:cover›", "  weight   ‹4:2 kg›", "}"],
  ),
  snippet(
    "fastener",
    '… "…" { … }',
    ["machine"],
    [
      'fastener ‹1:bolts› "‹2:Bolts›" {',
      "  secures ‹3:part›",
      "  thread  ‹4:M8›",
      "  class   ‹5:8.8›",
      "  ‹6:dry|as supplied›",
      "  count   ‹7:4›",
      "  tighten ‹8:22 N·m›  ‹9:crosswise|from the middle out›",
      "}",
    ],
  ),
  snippet(
    "stage",
    "… torque, then angle",
    ["fastener"],
    ["stage   ‹1:snug› ‹2:40 N·m›  ‹3:crosswise|from the middle out›", "stage   ‹4:final› ‹5:90°›"],
    "A tightening in stages: first to a torque, then by an angle.",
  ),
  snippet(
    "kit",
    '"…" { item … }',
    ["procedure"],
    ['kit "‹1:Number›" {', '  item ‹2:part› ‹3:1› "‹4:Part number›"', "}"],
  ),
  snippet(
    "section",
    '"…" { step … }',
    ["procedure"],
    [
      'section "‹1:Title›" {',
      '  step "‹2:Title›" {',
      "    ‹3:remove|fit|loosen|tighten› ‹4:thing›",
      "  }",
      "}",
    ],
  ),
  snippet("step", '"…" { … }', FLOW, [
    'step "‹1:Title›" {',
    "  ‹2:remove|fit|loosen|tighten› ‹3:thing›",
    "}",
  ]),
  snippet("check", '"…" { limit … }', FLOW, [
    'check ‹1:name› "‹2:Title›" {',
    "  limit ‹3:0.05 to 0.15 mm›  with ‹4:gauge›",
    "  if not met {",
    '    end job "‹5:What to do then.›"',
    "  }",
    "}",
  ]),
  snippet("check", '"…" { observe … }', FLOW, [
    'check "‹1:Title›" {',
    '  observe "‹2:Is it dry?›"',
    "  if no {",
    '    end job "‹3:What to do then.›"',
    "  }",
    "}",
  ]),
  snippet("check", '"…" { limit … check again }', FLOW, [
    'check ‹1:name› "‹2:Title›" {',
    "  limit ‹3:0.3 to 0.4 mm›  with ‹4:gauge›",
    "  if not met {",
    "    adjust ‹5:screw›",
    "    check again  at most ‹6:2› times",
    "  }",
    "  if still not met {",
    '    end job "‹7:What to do then.›"',
    "  }",
    "}",
  ]),
  snippet("tighten", "… with …", ACTS, ["tighten ‹1:bolts›  with ‹2:torque-wrench›"]),
  snippet(
    "tighten",
    "… { stage … }",
    ACTS,
    [
      "tighten ‹1:bolts› {",
      "  stage   ‹2:snug›  with ‹3:torque-wrench›",
      "  stage   ‹4:final›  with ‹5:angle-gauge›",
      "}",
    ],
    "A tightening in stages, each with its own tool.",
  ),
  caution("danger"),
  caution("warning"),
  caution("caution"),
  caution("notice"),
];

const STOP = /‹(\d+):([^›]*)›/g;

/** A body with every stop as it stands at first, for an editor that knows no stops. */
export function plainBody(body: string): string {
  return body.replace(STOP, (_, _number, text: string) => text.split("|")[0] ?? "");
}

/** A body in the notation that editors know: `${1:text}`, `${1|a,b|}`, and `$0` at the end. */
export function bodyWithStops(body: string): string {
  const plain = (text: string): string => text.replace(/[\\$}]/g, "\\$&");
  const option = (text: string): string => plain(text).replace(/[,|]/g, "\\$&");
  let out = "";
  let from = 0;
  for (const stop of body.matchAll(STOP)) {
    const [whole, number = "", text = ""] = stop;
    const options = text.split("|");
    const filled = options.length > 1 ? `|${options.map(option).join(",")}|` : `:${plain(text)}`;
    out += `${plain(body.slice(from, stop.index))}\${${number}${filled}}`;
    from = stop.index + whole.length;
  }
  return `${out}${plain(body.slice(from))}$0`;
}

/** The forms that may stand in a block of a kind; all of them where that is not known. */
export function snippetsIn(context: Context | undefined): readonly Snippet[] {
  return context === undefined ? SNIPPETS : SNIPPETS.filter((one) => one.within.includes(context));
}
