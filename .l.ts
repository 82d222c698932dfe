import { readFileSync } from "node:fs";
import { readDocument, assemble, parseLine } from "./grammar";
import { seeded } from "./tests/support/random";
import { randomBreak, withBreak, BREAKS } from "./tests/support/breaks";
import { chainsOf, movedLine } from "./tests/support/chains";
const seed=Number(process.argv[2]??1), N=Number(process.argv[3]??3000), mode=process.argv[4]??"formatted", show=Number(process.argv[5]??20);
const files=(process.argv[6]??"tests/grammar/fixtures/skua-27.torquil,tests/grammar/fixtures/belt-service.torquil").split(",");
const random=seeded(seed); const counts: Record<string,[number,number]>={}; let shown=0,total=0,miss=0;
for (const f of files) {
  let src=readFileSync(f,"utf8").split("\n"); if(mode!=="formatted") src=src.map(l=>l.trim());
  const d=assemble(src.map(parseLine)); const before=chainsOf(d);
  if (d.problems.length) console.log(f,d.problems);
  for(let i=0;i<N/files.length;i++){ const b=randomBreak(random,src); const t=assemble(withBreak(src,b).map(parseLine)); const m=movedLine(before,chainsOf(t),b.line);
   const c=counts[b.kind]??=[0,0]; c[0]++; total++; if(m!==undefined){c[1]++;miss++; if(shown++<show) console.log(b.kind,"|",f.slice(-14),b.line+1,"|",src[b.line]," => ",b.text," | moved",m+1,src[m], JSON.stringify(t.problems)); } }
}
for(const k of BREAKS) console.log(k.padEnd(26),counts[k]?.join(" miss "));
console.log(mode,"ok",(100*(total-miss)/total).toFixed(2),"% of",total,"misses",miss);
