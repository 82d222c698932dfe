import { readFileSync } from "node:fs";
import { formatDocument, readDocument } from "./grammar";
import { spellUnit } from "./server/project/spelling";
for (const f of process.argv.slice(2)) process.stdout.write(formatDocument(readDocument(readFileSync(f,"utf8")), spellUnit));
