/**
 * What a caution says to start from, in the languages of the sheet besides English, whose words stand in the table of
 * hazards: the hazard, what it can do, what to do. A hazard of the house brings its title and takes the last two.
 */
import type { Language } from "./sheet";

type Words = readonly [hazard: string, can: string, so: string];

const WORDS: Readonly<Partial<Record<Language, Readonly<Record<string, Words>>>>> = {
  de: {
    burn: [
      "Aus einem offenen System spritzt heiße Flüssigkeit.",
      "Verbrühen.",
      "Erst öffnen, wenn es abgekühlt ist.",
    ],
    injection: [
      "Flüssigkeit unter Druck dringt durch die Haut.",
      "Vergiften und eine Hand kosten.",
      "Erst den Druck ablassen, die Hände von der Verbindung fernhalten.",
    ],
    crushing: [
      "Das Teil ist schwer.",
      "Hände oder Füße quetschen.",
      "Mit geeignetem Hebezeug heben, nicht darunter treten.",
    ],
    "stored-energy": [
      "Das Teil steht unter Federkraft.",
      "Einen Finger quetschen.",
      "Festhalten und langsam entspannen.",
    ],
    "electric-shock": [
      "Das Teil steht unter Hochspannung.",
      "Töten.",
      "Freischalten, gegen Wiedereinschalten sichern, Spannungsfreiheit feststellen.",
    ],
    fire: [
      "Ein Funke kann Dampf oder Gas entzünden.",
      "Verbrennen und explodieren.",
      "Flammen und Funken fernhalten, den Raum lüften.",
    ],
    entanglement: [
      "Die Maschine läuft ohne ihre Schutzabdeckung.",
      "Haare, Hände und Kleidung erfassen.",
      "Von bewegten Teilen fernbleiben.",
    ],
    "eye-injury": ["Späne fliegen.", "Ein Auge kosten.", "Schutzbrille tragen."],
    chemical: [
      "Der Stoff ist gesundheitsschädlich.",
      "Haut, Augen oder Lunge schädigen.",
      "Handschuhe und Schutzbrille tragen, den Raum lüften.",
    ],
    damage: ["Das Teil wird leicht beschädigt.", "Das Teil zerstören.", "Mit Sorgfalt arbeiten."],
  },
  fr: {
    burn: [
      "Du fluide brûlant jaillit d'un circuit ouvert.",
      "Ébouillanter.",
      "Ne rien ouvrir avant refroidissement.",
    ],
    injection: [
      "Un fluide sous pression traverse la peau.",
      "Empoisonner et coûter une main.",
      "Relâcher d'abord la pression et tenir les mains loin du raccord.",
    ],
    crushing: [
      "La pièce est lourde.",
      "Écraser les mains ou les pieds.",
      "Lever avec un moyen adapté et ne pas passer dessous.",
    ],
    "stored-energy": [
      "La pièce est sous ressort.",
      "Écraser un doigt.",
      "La tenir et la laisser revenir lentement.",
    ],
    "electric-shock": [
      "La pièce est sous haute tension.",
      "Tuer.",
      "Couper, condamner et vérifier l'absence de tension.",
    ],
    fire: [
      "Une étincelle peut enflammer vapeurs ou gaz.",
      "Brûler et exploser.",
      "Éloigner flammes et étincelles et aérer le local.",
    ],
    entanglement: [
      "La machine tourne sans son protecteur.",
      "Happer cheveux, mains et vêtements.",
      "Rester à l'écart des pièces en mouvement.",
    ],
    "eye-injury": ["Des éclats volent.", "Coûter un œil.", "Porter des lunettes de protection."],
    chemical: [
      "Le produit est nocif.",
      "Abîmer la peau, les yeux ou les poumons.",
      "Porter gants et lunettes et aérer le local.",
    ],
    damage: ["La pièce s'abîme facilement.", "Détruire la pièce.", "Travailler avec soin."],
  },
  es: {
    burn: [
      "De un circuito abierto sale fluido caliente a chorro.",
      "Escaldar.",
      "No abrir nada hasta que se haya enfriado.",
    ],
    injection: [
      "El fluido a presión atraviesa la piel.",
      "Envenenar y costar una mano.",
      "Soltar antes la presión y mantener las manos lejos de la unión.",
    ],
    crushing: [
      "La pieza pesa mucho.",
      "Aplastar manos o pies.",
      "Levantar con medios adecuados y no ponerse debajo.",
    ],
    "stored-energy": [
      "La pieza tiene un muelle tenso.",
      "Aplastar un dedo.",
      "Sujetarla y dejar que vuelva despacio.",
    ],
    "electric-shock": [
      "La pieza está bajo alta tensión.",
      "Matar.",
      "Desconectar, bloquear y comprobar que no hay tensión.",
    ],
    fire: [
      "Una chispa puede encender vapores o gas.",
      "Quemar y explotar.",
      "Alejar llamas y chispas y ventilar el local.",
    ],
    entanglement: [
      "La máquina funciona sin su resguardo.",
      "Atrapar pelo, manos y ropa.",
      "Mantenerse lejos de las piezas en movimiento.",
    ],
    "eye-injury": ["Saltan virutas.", "Costar un ojo.", "Llevar gafas de protección."],
    chemical: [
      "La sustancia es nociva.",
      "Dañar piel, ojos o pulmones.",
      "Llevar guantes y gafas y ventilar el local.",
    ],
    damage: ["La pieza se daña con facilidad.", "Estropear la pieza.", "Trabajar con cuidado."],
  },
};

const OWN: Readonly<Record<Language, readonly [can: string, so: string]>> = {
  en: ["Hurt you.", "Take care."],
  de: ["Verletzen.", "Vorsichtig arbeiten."],
  fr: ["Blesser.", "Travailler avec prudence."],
  es: ["Herir.", "Trabajar con precaución."],
};

/** What a caution on a hazard of the trade says in a language; null in English, whose words the table of hazards has. */
export function cautionWords(language: Language, hazard: string): Words | null {
  return WORDS[language]?.[hazard] ?? null;
}

/** What a caution on a hazard of the house can do and asks for, until its writer says it better. */
export function ownWords(language: Language): readonly [can: string, so: string] {
  return OWN[language];
}
