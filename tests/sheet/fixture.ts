/**
 * A sheet made by hand: the belt kit of a marine generator, with one of everything a sheet can hold. Invented.
 */
import type { Block, Sheet } from "../../server/sheet/blocks";
import { front } from "./fixture-front";
import { endFloat, work } from "./fixture-work";
import { ref, words } from "./make";

const back: readonly Block[] = [
  {
    kind: "values",
    id: "values",
    rows: [
      {
        id: "rv-end-float",
        name: words("Pump shaft end float"),
        measure: "end-float",
        limit: endFloat.limit,
        unit: "mm",
        places: [""],
        at: ref(6),
      },
    ],
  },
  {
    kind: "record",
    id: "record",
    fields: [
      { id: "rec-serial", field: "machine-serial" },
      { id: "rec-hours", field: "running-hours" },
      { id: "rec-wrench", field: "wrench" },
      { id: "rec-cal", field: "calibrated-until" },
      { id: "rec-dial", field: "instrument", of: "Dial gauge" },
      { id: "rec-start", field: "started" },
      { id: "rec-end", field: "finished" },
    ],
  },
  {
    kind: "sign-off",
    id: "sign-off",
    rows: [
      { id: "so-fitter", role: "fitter" },
      { id: "so-second", role: "second-person" },
    ],
  },
  {
    kind: "revisions",
    id: "revisions",
    rows: [
      {
        id: "rev-c",
        name: "C",
        date: "2026-11-20",
        reason: words("End float is now measured, after field reports."),
        changed: true,
      },
      {
        id: "rev-b",
        name: "B",
        date: "2026-03-02",
        reason: words("Sprocket bolt is now renewed every time it comes out."),
      },
    ],
  },
];

export const BELT_SHEET: Sheet = {
  lang: "en",
  words: "en",
  paper: "a4",
  draft: false,
  title: "Renew the injection-pump belt",
  document: "SK27-0410",
  revision: { name: "C", date: "2026-11-20" },
  changedSince: "B",
  blocks: [...front, ...work, ...back],
};
