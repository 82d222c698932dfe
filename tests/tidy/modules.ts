/**
 * Reads modules of TypeScript for the tidy tests: what each imports, and what it uses of its surroundings.
 * It works on texts by path, so that a test can plant a bad one.
 */
import { posix } from "node:path";
import ts from "typescript";

/** The sources by path from the root, with `/` between folders. */
export type Sources = ReadonlyMap<string, string>;

/** One import, re-export or `import(…)` of a module. */
export interface Import {
  readonly specifier: string;
  /** Whether nothing of it runs: `import type`, `export type`, `import("…").Type`, or only `type` names. */
  readonly typeOnly: boolean;
  /** Counted from 1. */
  readonly line: number;
}

/** A use of clock, chance, locale, process or console. */
export interface Use {
  readonly what: string;
  /** Counted from 1. */
  readonly line: number;
}

/** What the tidy tests know of one module. */
export interface Module {
  readonly path: string;
  readonly text: string;
  readonly imports: readonly Import[];
  readonly uses: readonly Use[];
}

const SURROUNDING_GLOBALS = new Set(["process", "Intl", "performance", "navigator", "console", "fetch"]);
const CLOCK_CALLS = new Set(["setTimeout", "setInterval", "setImmediate"]);
const LOCAL_TIME = /^(get|set)(FullYear|Month|Date|Day|Hours|Minutes|Seconds|TimezoneOffset)$/;

/** Reads one module. Never fails: a text with errors gives what can be seen in it. */
export function readModule(path: string, text: string): Module {
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true);
  const imports: Import[] = [];
  const uses: Use[] = [];
  const visit = (node: ts.Node): void => {
    const line = source.getLineAndCharacterOfPosition(node.getStart(source)).line + 1;
    const imported = importOf(node);
    if (imported) imports.push({ ...imported, line });
    const what = surroundingUseOf(node);
    if (what) uses.push({ what, line });
    ts.forEachChild(node, visit);
  };
  visit(source);
  return { path, text, imports, uses };
}

/** The path a relative import leads to, or undefined where no such source is. */
export function resolveImport(from: string, specifier: string, sources: Sources): string | undefined {
  const place = posix.join(posix.dirname(from), specifier);
  const candidates = [place, `${place}.ts`, `${place}/index.ts`, place.replace(/\.js$/, ".ts")];
  return candidates.find((candidate) => sources.has(candidate));
}

function importOf(node: ts.Node): Omit<Import, "line"> | undefined {
  if (ts.isImportDeclaration(node) && ts.isStringLiteral(node.moduleSpecifier))
    return { specifier: node.moduleSpecifier.text, typeOnly: importsTypesOnly(node.importClause) };
  if (ts.isExportDeclaration(node) && node.moduleSpecifier && ts.isStringLiteral(node.moduleSpecifier))
    return { specifier: node.moduleSpecifier.text, typeOnly: exportsTypesOnly(node) };
  if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument))
    return literalImport(node.argument.literal, true);
  if (ts.isExternalModuleReference(node)) return literalImport(node.expression, false);
  if (ts.isCallExpression(node) && isImportCall(node)) return literalImport(node.arguments[0], false);
  return undefined;
}

function isImportCall(node: ts.CallExpression): boolean {
  const callee = node.expression;
  return (
    callee.kind === ts.SyntaxKind.ImportKeyword || (ts.isIdentifier(callee) && callee.text === "require")
  );
}

function literalImport(node: ts.Node | undefined, typeOnly: boolean): Omit<Import, "line"> | undefined {
  return node && ts.isStringLiteralLike(node) ? { specifier: node.text, typeOnly } : undefined;
}

function importsTypesOnly(clause: ts.ImportClause | undefined): boolean {
  if (!clause) return false;
  if (clause.isTypeOnly) return true;
  const names = clause.namedBindings;
  if (clause.name || !names || !ts.isNamedImports(names)) return false;
  return names.elements.length > 0 && names.elements.every((name) => name.isTypeOnly);
}

function exportsTypesOnly(node: ts.ExportDeclaration): boolean {
  if (node.isTypeOnly) return true;
  const names = node.exportClause;
  if (!names || !ts.isNamedExports(names)) return false;
  return names.elements.length > 0 && names.elements.every((name) => name.isTypeOnly);
}

function surroundingUseOf(node: ts.Node): string | undefined {
  if (ts.isNewExpression(node)) {
    const isNow = isNamed(node.expression, "Date") && !node.arguments?.length;
    return isNow ? "new Date()" : undefined;
  }
  if (ts.isCallExpression(node) && isNamed(node.expression, "Date")) return "Date()";
  if (ts.isPropertyAccessExpression(node)) return memberUse(node);
  if (ts.isElementAccessExpression(node) && isNamed(node.expression, "globalThis")) return "globalThis[…]";
  if (!ts.isIdentifier(node) || !isReference(node)) return undefined;
  if (SURROUNDING_GLOBALS.has(node.text) || CLOCK_CALLS.has(node.text)) return node.text;
  return undefined;
}

function memberUse(node: ts.PropertyAccessExpression): string | undefined {
  const name = node.name.text;
  if (isNamed(node.expression, "Date") && name === "now") return "Date.now";
  if (isNamed(node.expression, "Math") && name === "random") return "Math.random";
  if (isNamed(node.expression, "globalThis")) return `globalThis.${name}`;
  if (isNamed(node.expression, "crypto") && /^random|^getRandom/.test(name)) return `crypto.${name}`;
  if (name.startsWith("toLocale") || name === "localeCompare" || LOCAL_TIME.test(name)) return name;
  return undefined;
}

function isNamed(node: ts.Node, name: string): boolean {
  return ts.isIdentifier(node) && node.text === name;
}

/** Whether an identifier stands for a value, rather than being a member's, a key's or a declaration's name. */
function isReference(node: ts.Identifier): boolean {
  const parent = node.parent;
  if (ts.isPropertyAccessExpression(parent)) return parent.expression === node;
  if (ts.isPropertyAssignment(parent) || ts.isVariableDeclaration(parent)) return parent.initializer === node;
  if (ts.isShorthandPropertyAssignment(parent)) return true;
  if (ts.isQualifiedName(parent) || ts.isImportSpecifier(parent) || ts.isExportSpecifier(parent))
    return false;
  const declares = (parent as { name?: ts.Node }).name === node;
  const labels = ts.isLabeledStatement(parent) || ts.isBindingElement(parent);
  return !declares && !labels && !ts.isTypeReferenceNode(parent);
}
