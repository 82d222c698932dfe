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
for(let i=0;i<3;i++){ console.log("type in act", ed(mid,13,13,"x"+i)); }
console.log("add brace", ed(mid,d.lines[mid].text.length,d.lines[mid].text.length," {"));
console.log("type unbalanced", ed(mid+1,13,13,"y"));
console.log("type unbalanced", ed(mid+1,13,13,"z"));
console.log("undo brace", ed(mid,d.lines[mid].text.length-2,d.lines[mid].text.length,""));
console.log("type", ed(mid,13,13,"q"));
const close=out.findIndex((l,i)=>i>mid&&l.trim()==="}");
console.log("drop }", ed(close,0,10,""));
console.log("restore", ed(close,0,0,"    }"));
console.log("blank head", ed(close+1,0,40,"")); console.log("restore", ed(close+1,0,0,out[close+1]));
console.log("new line", ed(mid,0,0,"      \"new\"\n"));
console.log("section line", ed(6,0,0,"  document \"X\"\n"));
console.log("format", cpu(()=>{formatDocument(d,spellUnit)}));
let flat=readDocument(out.map(l=>l.trim()).join("\n")); 
console.log("flat drop }", cpu(()=>{flat=applyEdits(flat,[{start:{line:close,character:0},end:{line:close,character:10},text:""}])}), flat.tree.problems);
