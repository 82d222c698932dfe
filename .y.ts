import { readFileSync } from "node:fs";
import { assemble, parseLine } from "./grammar";
import { layoutOf } from "./grammar/layout";
import { chainsOf } from "./tests/support/chains";
const [f,k,txt,a,z]=process.argv.slice(2);
const src=readFileSync(f,"utf8").split("\n");
const b=chainsOf(assemble(src.map(parseLine)));
src[Number(k)-1]=txt; const t=assemble(src.map(parseLine)); const c=chainsOf(t);
for(let i=Number(a)-1;i<Number(z);i++) console.log(i+1,JSON.stringify(b[i]),JSON.stringify(c[i]),src[i]); console.log(t.problems, layoutOf(src.map(parseLine)))
