/**
 * Lays out what is read before anything is fetched: whether the sheet applies, and the safety summary.
 */
import { type Language, type SheetWord, say } from "../phrases/sheet";
import { base, cell, dual, LINE_BREAK, plain, runs, stepNumbers, strong, text, tick } from "./atoms";
import type { Applicability, Safety } from "./blocks";
import type { Line, Node } from "./nodes";
import { listed, listHeading, row, type TablePlan, table } from "./tables";

/** The questions that are answered once, each answer with its box. */
export function applicability(language: Language, block: Applicability): Node[] {
  const rows = block.questions.map((question) =>
    row(
      question,
      [
        ...runs(question.question),
        ...(question.write === undefined
          ? []
          : [
              LINE_BREAK,
              text(`${question.write} `),
              { ...cell(`${question.id}.write`, question.write), size: "medium" as const },
            ]),
      ],
      question.answers.flatMap((answer, index) => {
        const label =
          typeof answer.answer === "string" ? say(language, `answer.${answer.answer}`) : answer.answer.text;
        const box = tick(
          `${question.id}.box${index + 1}`,
          `${plain(runs(question.question))} ${label}`,
          label,
        );
        const leads = answer.leads === "stop" ? [strong(say(language, "answer.stop"))] : runs(answer.leads);
        return [
          ...(index > 0 ? [LINE_BREAK] : []),
          box,
          ...(leads.length > 0 ? [text(" → "), ...leads] : []),
        ];
      }),
    ),
  );
  return listed(language, block, {
    head: "head.applicability",
    columns: [
      ["column.question", 5],
      ["column.answer", 4],
    ],
    rowHead: -1,
    rows,
  });
}

/** Protective equipment, heavy parts, and what the panels of the sheet warn of. */
export function safety(language: Language, block: Safety): Node[] {
  const part = (head: SheetWord, plan: Omit<TablePlan, "id" | "head">): Node[] =>
    plan.rows.length === 0
      ? []
      : [
          listHeading(language, { id: `${block.id}.${head}` }, head, 3),
          table(language, { ...plan, head, id: `${block.id}.${head}` }),
        ];
  const equipment = block.equipment.map(
    (item): Line => ({
      kind: "line",
      ...base(item),
      look: "bullet",
      mark: "",
      atoms: [tick(`${item.id}.box`, plain(runs(item.text))), ...runs(item.text)],
    }),
  );
  const body: Node[] = [
    ...(equipment.length === 0
      ? []
      : [listHeading(language, { id: `${block.id}.equipment` }, "safety.equipment", 3), ...equipment]),
    ...part("safety.heavy", {
      columns: [
        ["column.part", 4],
        ["column.weight", 2],
        ["column.how", 5],
      ],
      rows: block.heavy.map((item) => row(item, runs(item.part), dual(item.weight), runs(item.how))),
    }),
    ...part("safety.hazards", {
      columns: [
        ["column.signal", 2.4],
        ["column.hazard", 7],
        ["column.steps", 1.6],
      ],
      rowHead: 1,
      rows: block.hazards.map((item) =>
        row(
          item,
          [{ kind: "badge", text: say(language, `signal.${item.signal}`), look: item.signal }],
          runs(item.text),
          stepNumbers(item.at),
        ),
      ),
    }),
  ];
  return body.length === 0 ? [] : [listHeading(language, block, "head.safety"), ...body];
}
