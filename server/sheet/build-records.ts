/**
 * What is kept of the job: recorded values, who did it with what, signatures, and the sheet's revisions.
 */
import { checkOf, clausesOf, headerOf, toolFacts } from "../facts";
import type { Spot, Thing } from "../model";
import type { JobRecord, Measure, RecordedValues, RecordField, Revisions, SignOff } from "./blocks";
import { chosenMeasure, measureOf, valuesOf } from "./build-checks";
import { type Build, itemOf, refOf, thingsIn, titleOf } from "./build-context";
import { plain, textOf } from "./fill";
import { prose } from "./markdown";

/** The values of every check that records: a row for each thing measured, or one for what was seen. */
export function recordedValues(build: Build): RecordedValues {
  const checks = build.job.steps.filter(
    ({ entry }) => entry.construct === "check" && checkOf(entry).record !== null,
  );
  return { kind: "values", id: "values", rows: checks.flatMap((check) => rowsOf(build, check)) };
}

function rowsOf(build: Build, check: Spot): RecordedValues["rows"] {
  const { record } = checkOf(check.entry);
  const name = record?.what || (check.thing ? titleOf(check.thing) : "");
  const measures = measuresIn(build, check);
  const at = refOf(check);
  if (measures.length === 0)
    return [{ ...itemOf(check, "/value"), name: plain(name), places: valuesOf(check), at }];
  return measures.map((measure, index) => ({
    ...itemOf(check, index === 0 ? "/value" : `/value#${index + 1}`),
    name: plain(measures.length > 1 && measure.what ? textOf(measure.what) : name),
    measure: measure.id,
    limit: measure.limit,
    unit: measure.unit,
    places: measure.places,
    at,
  }));
}

/** What a check measures, in order. */
export function measuresIn(build: Build, check: Spot): readonly Measure[] {
  return check.children.flatMap((spot) => {
    if (spot.entry.construct === "limit") return measureOf(build, check, spot);
    return spot.entry.construct === "choose" ? chosenMeasure(build, check, spot) : [];
  });
}

/** Fitter, machine, wrenches and instruments with their calibration, times. */
export function jobRecord(build: Build): JobRecord {
  const several = needsSecond(build);
  const wrenches = toolsOf(build, (tool) => toolFacts(tool.entry).range?.kind === "torque");
  const measuring = new Set(
    build.job.spots
      .filter(({ entry }) => entry.construct === "limit" || entry.construct === "choose")
      .flatMap(instrumentsIn),
  );
  const instruments = toolsOf(build, (tool) => measuring.has(tool));
  const one = (field: RecordField, of?: string) => ({
    id: `record:${field}${of === undefined ? "" : `:${of}`}`,
    field,
    ...(of === undefined ? {} : { of }),
  });
  const calibrated = (field: "wrench" | "instrument", tools: readonly string[]) =>
    tools.flatMap((of) => [one(field, of), one("calibrated-until", of)]);
  return {
    kind: "record",
    id: "record",
    fields: [
      one("fitter"),
      ...(several ? [one("second-person")] : []),
      one("machine-serial"),
      one("running-hours"),
      ...calibrated("wrench", wrenches),
      ...calibrated("instrument", instruments),
      one("started"),
      one("finished"),
    ],
  };
}

function instrumentsIn(spot: Spot): readonly Thing[] {
  return clausesOf(spot.entry, "with").flatMap((detail) => thingsIn(spot, detail, "tools"));
}

/** The titles of the job's tools of a kind, each once. */
function toolsOf(build: Build, wanted: (tool: Thing) => boolean): readonly string[] {
  const tools = build.job.procedures.flatMap(({ procedure }) =>
    procedure.things.filter(({ kind }) => kind === "tool"),
  );
  return [...new Set(tools.filter(wanted).map(titleOf))];
}

function needsSecond(build: Build): boolean {
  return (
    build.uses.all.some(({ act }) => act.people > 1 || act.watchedBy !== null) ||
    build.job.root.procedure.things.filter(({ kind }) => kind === "person").length > 1
  );
}

export function signOff(build: Build): SignOff {
  const roles = ["fitter", ...(needsSecond(build) ? (["second-person"] as const) : []), "customer"] as const;
  return { kind: "sign-off", id: "sign-off", rows: roles.map((role) => ({ id: `sign-off:${role}`, role })) };
}

/** The revisions as the writer lists them, newest first. */
export function revisions(build: Build): Revisions {
  const rows = headerOf(build.job.root.entry).revisions.map(({ mark, date, reason, at }, index) => ({
    ...itemOf(build.job.root, `/revision:${mark}${index === 0 ? "" : `#${index}`}`),
    source: { file: build.job.root.file, line: build.job.root.line + at.row },
    name: mark,
    ...(date ? { date } : {}),
    reason: prose(reason),
  }));
  return { kind: "revisions", id: "revisions", rows };
}
