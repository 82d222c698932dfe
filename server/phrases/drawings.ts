/**
 * The words on drawings and in their descriptions, by language: templates, with `{name}` for what is put in.
 */
import type { Language } from "./sheet";

const en = {
  "scale.down": "Scale 1 : {n}",
  "scale.up": "Scale {n} : 1",
  "scale.none": "Not to scale",
  teeth: "{n} teeth",
  "back-of-belt": "back of belt",
  tensioner: "tensioner",
  "not-touched": "not touched",
  "belt.title": "Path of {belt}",
  "belt.order": "In the order of the path, {round}: {pulleys}.",
  "belt.pulley": "{n} {name}",
  "belt.note": "{name} ({notes})",
  "belt.turns": "turns {round}",
  "belt.arrows": "Arrows: the way the belt travels and the pulleys turn",
  "belt.grey": "Grey, double ring: the back of the belt touches",
  "belt.travel": "Double arrow: travel of the tensioner",
  "belt.unsound": "This path does not work: see the dashed lines.",
  "round.clockwise": "clockwise",
  "round.anticlockwise": "anticlockwise",
  mark: "Mark: {mark}",
  "bolts.title": "Tightening order of {fastener}",
  "bolts.title.holes": "Holes of {fastener}",
  "bolts.order": "In this order, by hole: {holes}.",
  "bolts.numbers": "Numbers in the circles: the order of tightening. Small numbers: the holes",
  "bolts.same": "The numbers are the holes and the order of tightening",
  "bolts.holes": "The numbers are the holes",
  "run.title": "Run of {line}",
  "run.clips": "Through the clips in this order: {clips}.",
  "run.note": "Numbers: the clips in the order of the run",
} as const;

/** What a drawing can say. */
export type DrawingWord = keyof typeof en;

const de: Record<DrawingWord, string> = {
  "scale.down": "Maßstab 1 : {n}",
  "scale.up": "Maßstab {n} : 1",
  "scale.none": "Nicht maßstäblich",
  teeth: "{n} Zähne",
  "back-of-belt": "Riemenrücken",
  tensioner: "Spanner",
  "not-touched": "nicht berührt",
  "belt.title": "Verlauf: {belt}",
  "belt.order": "In der Reihenfolge des Verlaufs, {round}: {pulleys}.",
  "belt.pulley": "{n} {name}",
  "belt.note": "{name} ({notes})",
  "belt.turns": "dreht {round}",
  "belt.arrows": "Pfeile: Laufrichtung des Riemens und Drehrichtung der Räder",
  "belt.grey": "Grau, Doppelring: der Riemenrücken liegt an",
  "belt.travel": "Doppelpfeil: Weg des Spanners",
  "belt.unsound": "So kann der Riemen nicht laufen: siehe gestrichelte Linien.",
  "round.clockwise": "im Uhrzeigersinn",
  "round.anticlockwise": "gegen den Uhrzeigersinn",
  mark: "Marke: {mark}",
  "bolts.title": "Anziehreihenfolge: {fastener}",
  "bolts.title.holes": "Löcher: {fastener}",
  "bolts.order": "In dieser Reihenfolge, nach Löchern: {holes}.",
  "bolts.numbers": "Zahlen in den Kreisen: Reihenfolge des Anziehens. Kleine Zahlen: die Löcher",
  "bolts.same": "Die Zahlen sind die Löcher und die Reihenfolge des Anziehens",
  "bolts.holes": "Die Zahlen sind die Löcher",
  "run.title": "Verlauf: {line}",
  "run.clips": "Durch die Klemmen in dieser Reihenfolge: {clips}.",
  "run.note": "Zahlen: die Klemmen in der Reihenfolge des Verlaufs",
};

const fr: Record<DrawingWord, string> = {
  "scale.down": "Échelle 1 : {n}",
  "scale.up": "Échelle {n} : 1",
  "scale.none": "Pas à l’échelle",
  teeth: "{n} dents",
  "back-of-belt": "dos de la courroie",
  tensioner: "tendeur",
  "not-touched": "non touchée",
  "belt.title": "Parcours : {belt}",
  "belt.order": "Dans l’ordre du parcours, {round} : {pulleys}.",
  "belt.pulley": "{n} {name}",
  "belt.note": "{name} ({notes})",
  "belt.turns": "tourne {round}",
  "belt.arrows": "Flèches : sens de marche de la courroie et de rotation des poulies",
  "belt.grey": "Gris, double cercle : le dos de la courroie touche",
  "belt.travel": "Double flèche : course du tendeur",
  "belt.unsound": "Ce parcours est impossible : voir les traits interrompus.",
  "round.clockwise": "sens horaire",
  "round.anticlockwise": "sens antihoraire",
  mark: "Repère : {mark}",
  "bolts.title": "Ordre de serrage : {fastener}",
  "bolts.title.holes": "Trous : {fastener}",
  "bolts.order": "Dans cet ordre, par trou : {holes}.",
  "bolts.numbers": "Numéros dans les cercles : ordre de serrage. Petits numéros : les trous",
  "bolts.same": "Les numéros sont les trous et l’ordre de serrage",
  "bolts.holes": "Les numéros sont les trous",
  "run.title": "Parcours : {line}",
  "run.clips": "Par les colliers dans cet ordre : {clips}.",
  "run.note": "Numéros : les colliers dans l’ordre du parcours",
};

const es: Record<DrawingWord, string> = {
  "scale.down": "Escala 1 : {n}",
  "scale.up": "Escala {n} : 1",
  "scale.none": "No está a escala",
  teeth: "{n} dientes",
  "back-of-belt": "dorso de la correa",
  tensioner: "tensor",
  "not-touched": "sin contacto",
  "belt.title": "Recorrido: {belt}",
  "belt.order": "En el orden del recorrido, {round}: {pulleys}.",
  "belt.pulley": "{n} {name}",
  "belt.note": "{name} ({notes})",
  "belt.turns": "gira {round}",
  "belt.arrows": "Flechas: sentido de marcha de la correa y de giro de las poleas",
  "belt.grey": "Gris, doble círculo: toca el dorso de la correa",
  "belt.travel": "Doble flecha: recorrido del tensor",
  "belt.unsound": "Este recorrido no es posible: véanse las líneas discontinuas.",
  "round.clockwise": "en sentido horario",
  "round.anticlockwise": "en sentido antihorario",
  mark: "Marca: {mark}",
  "bolts.title": "Orden de apriete: {fastener}",
  "bolts.title.holes": "Agujeros: {fastener}",
  "bolts.order": "En este orden, por agujero: {holes}.",
  "bolts.numbers": "Números en los círculos: orden de apriete. Números pequeños: los agujeros",
  "bolts.same": "Los números son los agujeros y el orden de apriete",
  "bolts.holes": "Los números son los agujeros",
  "run.title": "Recorrido: {line}",
  "run.clips": "Por las abrazaderas en este orden: {clips}.",
  "run.note": "Números: las abrazaderas en el orden del recorrido",
};

const WORDS: Readonly<Record<Language, Readonly<Record<DrawingWord, string>>>> = { en, de, fr, es };

/**
 * Says a phrase of a drawing.
 *
 * @param args what to put in for each `{name}`; a name that is not given stays as it is
 */
export function drawingWord(
  language: Language,
  id: DrawingWord,
  args: Readonly<Record<string, string>> = {},
): string {
  return WORDS[language][id].replace(/\{(\w+)\}/g, (whole, name: string) =>
    Object.hasOwn(args, name) ? (args[name] ?? whole) : whole,
  );
}
