import { readFileSync } from "node:fs";
import { readDocument, applyEdits, documentText, formatDocument } from "./grammar";
import { spellUnit } from "./server/project/spelling";
const steps=Number(process.argv[2]??10000);
const out=['torquil 1','','use "m.torquil"','','procedure big "Big" {','  on m'];
for(let s=0;s<steps/10;s++){ out.push(`  section "Section ${s}" {`); for(let k=0;k<10;k++){ out.push(`    step s-${s}-${k} "Step ${s} ${k}" {`,`      "Do it with care ${s}."`,`      remove bolts-${s}-${k}, cover-${k}`,`      fit new seal-${k}  by hand`,`      tighten bolts-${s}-${k}  with torque-wrench`,`    }`);} out.push('  }',''); }
out.push('}',''); const text=out.join("\n");
const cpu=(f:()=>void)=>{const c=process.cpuUsage();const t=performance.now();f();return `${(performance.now()-t).toFixed(1)} ms (cpu ${(process.cpuUsage(c).user/1000).toFixed(1)})`;};
let d=readDocument("torquil 1"); console.log("lines",out.length);
console.log("read", cpu(()=>{d=readDocument(text)}));
const mid=out.findIndex(l=>l.includes(`s-${steps/20}-5 `))+2;
const ed=(line:number,a:number,b:number,t:string)=>{ const s=cpu(()=>{ d=applyEdits(d,[{start:{line,character:a},end:{line,character:b},text:t}]); }); return s+" problems "+d.tree.problems.length+" "+d.tree.balanced; };

ed(mid,d.lines[mid].text.length,d.lines[mid].text.length," {");
for(let i=0;i<40;i++){ const r=ed(mid+1,13,13,"y"); if(i%8==7) console.log("unbalanced",r); }
ed(mid,d.lines[mid].text.length-2,d.lines[mid].text.length,"");
for(let i=0;i<40;i++){ const r=ed(mid+1,13,13,"y"); if(i%8==7) console.log("balanced",r); }
