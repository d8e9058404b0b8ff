"""The look of the sheet: black on white, one accent, words and shapes before colour; phone, desk and paper."""

from __future__ import annotations

from string import Template

from partscheck.report.drawing.canvas import GREY, INK, TROUBLE
from partscheck.report.html.drawings import PRINTED

PAPER = "#ffffff"
WASH = "#f4f3ef"  # behind what is set apart
RULE = "#c4c2ba"  # hairlines, which carry nothing by themselves
COLOURS = {"ink": INK, "quiet": GREY, "accent": TROUBLE, "paper": PAPER, "wash": WASH, "rule": RULE}

_SCREEN = """
*,*::before,*::after{box-sizing:border-box}
html{-webkit-text-size-adjust:100%;text-size-adjust:100%}
body{margin:0 auto;padding:1rem 1rem 3rem;max-width:66rem;background:$paper;color:$ink;
font:400 1.0625rem/1.5 -apple-system,"Segoe UI",Roboto,"Helvetica Neue",Arial,"Liberation Sans",sans-serif;
overflow-wrap:break-word;hyphens:manual}
h1,h2,h3,p,ul,ol,dl,dd,figure,table{margin:0;padding:0}
a{color:inherit;text-decoration-thickness:1px;text-underline-offset:.18em}
a:focus-visible,summary:focus-visible,input:focus-visible{outline:3px solid $accent;outline-offset:2px}
h1{font-size:1.5rem;line-height:1.25;font-weight:600;text-wrap:balance}
h2{font-size:1.4rem;line-height:1.25;margin:3rem 0 1rem;padding-top:.5rem;border-top:3px solid $ink}
h2 small{font-size:1rem;font-weight:400;color:$quiet}
h3{font-size:1.0625rem;line-height:1.35}
section>p,section>ul,section>ol,section>div>p,section>div>ul,details>p,details>ul{margin:.6rem 0;
max-width:46rem}
ul,ol{padding-left:1.25rem}
li{margin:.2rem 0}
small,.basis,.place{font-size:.9rem}
.basis,.place,.basis a{color:$quiet}
.place a{white-space:nowrap}
.heard{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
.write,.closed{display:none}

.verdict{display:inline-block;padding:.1em .5em;margin-right:.25em;border:3px solid $ink;font-weight:800;
letter-spacing:.02em}
h1.stop .verdict{background:$accent;border-color:$accent;color:$paper}
.title-block{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(13rem,100%),1fr));margin:1.25rem 0 0;
border:1px solid $ink;gap:1px;background:$ink}
.title-block>div{background:$paper;padding:.35rem .6rem .45rem;min-width:0}
.title-block dt{font-size:.8rem;color:$quiet}
.title-block dd{font-weight:600;overflow-wrap:anywhere}
nav ul{display:flex;flex-wrap:wrap;list-style:none;padding:0;margin:.8rem 0 0;gap:0 1.2rem}
nav li{margin:0}
nav a{display:inline-block;padding:.45rem 0}

.finding{border-top:1px solid $rule;padding:1.1rem 0 1.2rem}
.findings>.finding:first-child{border-top:0;padding-top:0}
.finding h3{font-weight:600}
.mark{display:inline-block;padding:0 .45em;border:2px solid $ink;font-size:.85em;font-weight:800;
text-transform:uppercase;letter-spacing:.03em}
.stop .mark{background:$accent;border-color:$accent;color:$paper}
.measure .mark{border-style:dashed}
.number{font-weight:800;margin-right:.35em}
.title{overflow-wrap:anywhere}
.message{margin:.45rem 0 .3rem;max-width:46rem}
.stop .message,.caution .message{font-size:1.125rem;line-height:1.45}
.place{margin-bottom:.6rem}
.finding dl>div{display:grid;grid-template-columns:5.2rem minmax(0,1fr);gap:0 .75rem;margin:.3rem 0;
max-width:52rem}
.finding dt{font-weight:600}
.finding dd ul{list-style:none;padding:0}
.finding dd li+li{margin-top:.4rem}
.finding dd li{margin:0}
dl .danger dt,p.danger b{color:$accent}
p.danger{margin:.6rem 0;padding:.2rem 0 .2rem .75rem;border-left:3px solid $accent;max-width:46rem}

.drawings{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(29rem,100%),1fr));gap:2rem;align-items:start}
figure{min-width:0}
figure svg{display:block;width:100%;height:auto;border:1px solid $rule}
figcaption{margin-bottom:.4rem}

table{width:100%;border-collapse:collapse;margin:.75rem 0 1.25rem;line-height:1.35;
font-variant-numeric:tabular-nums}
caption{text-align:left;font-weight:600;padding:.5rem 0 .35rem}
th,td{text-align:left;vertical-align:top;padding:.35rem .9rem .35rem 0;border-bottom:1px solid $rule;
overflow-wrap:anywhere}
tbody th{font-weight:400}
thead th{border-bottom:2px solid $ink;font-weight:600;vertical-align:bottom;overflow-wrap:normal}
th:last-child,td:last-child{padding-right:0}
.figures{text-align:right;overflow-wrap:normal}
td.figures{white-space:nowrap}
.short{overflow-wrap:normal}
.bill{font-size:.95rem}
.bill td:last-child{width:26%}
.bill tbody th{width:30%}
tbody .group{font-weight:600;padding-top:1.1rem;width:auto!important}
.bars{max-width:36rem}

summary{cursor:pointer;margin-top:3rem;padding-top:.5rem;border-top:3px solid $ink}
summary h2{display:inline;margin:0;padding:0;border:0}
details h3{margin:1.75rem 0 .4rem}
.tools,.steps{list-style:none;padding:0}
.tools{columns:18rem;column-gap:2rem;max-width:none!important}
.tools li{break-inside:avoid}
.steps>li{margin:.9rem 0;max-width:48rem}
label{display:flex;gap:.6rem;align-items:baseline}
label input{flex:none;width:1.15rem;height:1.15rem;margin:0;position:relative;top:.2rem;accent-color:$ink}
.steps p{margin:.2rem 0 .2rem 1.75rem}
.steps p.danger{margin-left:1.75rem}
.bases{font-size:.9rem;max-width:none!important;overflow-wrap:anywhere}
ul.bases{list-style:none;padding:0}
ol.bases{columns:28rem;column-gap:2.5rem}
.bases li{break-inside:avoid;margin:0 0 .6rem}
footer{margin-top:2rem;color:$quiet;font-size:.9rem}
:target{scroll-margin-top:.5rem}
.finding:target,figure:target,.bases li:target{background:$wash;box-shadow:0 0 0 .5rem $wash}
"""

_NARROW = """
@media screen and (max-width:44rem){
h1{font-size:1.3rem}
.verdict{display:table;margin:0 0 .5rem;font-size:1.25em}
.title-block{grid-template-columns:1fr 1fr}
.finding dl>div{display:block;margin:.5rem 0}
.finding dt,.finding dd{display:inline}
.finding dt{margin-right:.5em}
table,tbody,tr,td,tbody th,caption{display:block;width:auto!important}
thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
tr{border-bottom:1px solid $rule;padding:.55rem 0}
tbody th,td{border:0;padding:.1rem 0;overflow-wrap:anywhere}
tbody th{font-weight:600}
tbody .group{padding:.6rem 0 0;font-size:1.0625rem;font-weight:800}
td.figures{display:inline-block;text-align:left;margin-right:.9rem;white-space:normal}
td::before{content:attr(data-label) " ";color:$quiet}
td.empty{display:none}
figure{margin:0 -1rem}
figure svg{border-width:1px 0}
figcaption{padding:0 1rem}
}
"""

# Two columns; a drawing that no longer fits a column opens the next one, and the text after it fills the gap:
# that is what a float does.  Type is 8.5 pt, 8 pt in tables, and 7.5 pt where nobody reads at the bench.
_PRINT = """
@media print{
@page{margin:9mm 9mm 11mm;@bottom-right{content:counter(page) " of " counter(pages);font:8pt sans-serif}
@bottom-left{content:"partscheck screens a list; it approves nothing.";font:8pt sans-serif}}
body{max-width:none;padding:0 .4mm;font-size:8.5pt;line-height:1.22}
nav,footer{display:none}
a{text-decoration:none}
header>p{margin:1mm 0 0}
h1{font-size:13pt}
h2{display:flow-root;width:100%;font-size:11pt;margin:2.8mm 0 1mm;padding-top:.8mm;border-top-width:1.5pt;
break-after:avoid}
h2 small,small{font-size:8pt}
.basis,.place{font-size:7.5pt}
h3{font-size:8.5pt;break-after:avoid}
.write{display:block}
.blank{display:inline-block;min-width:45mm;border-bottom:.6pt solid $ink;height:1.1em}
.finding .write{margin:1.6mm 0 0}
.title-block{display:flex;margin:2mm 0 0;background:none;gap:0;border:.7pt solid $ink}
.title-block>div{flex:1 1 auto;padding:.6mm 1.6mm;border-left:.5pt solid $ink}
.title-block>div:first-child{border-left:0}
.title-block dt{font-size:7pt}
.title-block .blank{min-width:30mm}
.verdict,.stop .mark,h1.stop .verdict{-webkit-print-color-adjust:exact;print-color-adjust:exact}
.mark{border-width:1pt}
.flow{columns:2;column-gap:6mm;margin-top:3.5mm}
.flow>section:first-child h2{margin-top:0}
.finding{padding:1.1mm 0 1.3mm;orphans:2;widows:2}
.findings>.finding:first-child{padding-top:0}
.finding h3{break-inside:avoid}
.finding .place{break-before:avoid}
.message,.stop .message,.caution .message{font-size:8.5pt;line-height:1.22;margin:.4mm 0 .2mm;font-weight:500}
.place{margin-bottom:.4mm}
.finding dl>div{display:block;margin:.3mm 0}
.finding dt,.finding dd,.finding dd ul,.finding dd li{display:inline}
.finding dt{margin-right:.45em}
.finding dd li+li::before{content:"\\A";white-space:pre}
#drawings>h2,.bars,.drawn{display:none}
.drawings{display:block}
figure{float:left;width:100%;break-inside:avoid;margin:0;padding:.8mm 0 2mm}
figcaption{margin-bottom:.6mm;break-after:avoid}
figcaption p{font-size:8pt}
figure svg{border-width:.5pt;width:$printed;margin:0 auto}
table{margin:.8mm 0 1.6mm;font-size:8pt;line-height:1.2}
caption{padding:.6mm 0 .4mm;break-after:avoid}
#load-cases table,#tire-pressure table{break-inside:avoid}
thead{display:table-header-group}
thead th{border-bottom-width:1pt}
th,td{padding:.4mm 1.4mm .4mm 0;border-bottom-width:.5pt}
.bill td:last-child{width:24%}
.bill tbody th{width:auto}
.bill td{padding-right:1.2mm}
.bill .group{padding-top:1.2mm}
.head,.head+tr{break-after:avoid}
thead{break-after:avoid}
td.short{white-space:nowrap}
tr,li{break-inside:avoid}
section>p,section>ul,section>ol,section>div>p,section>div>ul,details>p,details>ul{margin:.8mm 0;max-width:none}
section>ul,section>div>ul{padding-left:3mm}
li{margin:.3mm 0}
summary{list-style:none;margin-top:3.5mm;padding-top:.8mm;border-top-width:1.5pt;break-after:avoid}
summary::-webkit-details-marker{display:none}
details:not([open])+.closed{display:block}
section:has(>details:not([open])){display:flex;gap:2.5mm;align-items:baseline;margin-top:2.5mm;padding-top:.8mm;
border-top:1.5pt solid $ink}
details:not([open])>summary,details:not([open])+.closed{margin:0;padding:0;border:0}
details:not([open]) small{display:none}
details h3{margin:3mm 0 1mm}
#bench details{columns:2;column-gap:6mm}
#bench summary,#bench table{column-span:all}
#bench .tools,#bench ul.bases{columns:auto}
.steps>li,p.danger{break-inside:avoid}
p:has(+ul),h3+p.danger{break-after:avoid}
.steps>li{margin:1mm 0;max-width:none}
label{gap:2mm}
label input{width:3.2mm;height:3.2mm;top:.4mm}
.steps p,.steps p.danger{margin:.4mm 0 .4mm 5.2mm}
p.danger{margin:1mm 0;border-left-width:1.5pt;max-width:none}
.bases{font-size:7.5pt;line-height:1.16}
ol.bases{columns:3;column-gap:7mm;padding-left:4.5mm}
ul.bases{columns:2;column-gap:6mm}
.bases li{margin:0 0 .2mm}
:target{background:none!important;box-shadow:none!important}
}
"""


def _written(css: str) -> str:
    return Template(css).substitute(COLOURS, printed=f"{PRINTED}mm")


STYLE = "".join(_written(css) for css in (_SCREEN, _NARROW, _PRINT))
