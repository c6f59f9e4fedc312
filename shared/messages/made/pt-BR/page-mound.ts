// Made from ../../pt-BR/page-mound.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageMoundParams } from '../params/page-mound.ts';

export const pageMoundTexts: PageTexts<PageMoundParams> = {
  "page-mound.place": [["position",{"core":"centro","top":"topo","base":"base","edge":"borda","air":"ar","other":""},0]],
  "page-mound.label": [["stand",{"silent":"sem enviar","notMeasured":"não medido","other":"sem sonda de calor"},0]],
  "page-mound.label.doubted": [["tempText"],"?"],
  "page-mound.doubted": [["tempText"],", duvidoso: um salto a partir de ",["fromText"]],
  "page-mound.section": ["Corte da pilha: ",["placesText"]],
  "page-mound.section.none": "Corte da pilha: nenhuma sonda atribuída ainda",
  "page-mound.section.next": [["beforeText"],"; ",["nextText"]],
  "page-mound.section.measured": [["position",{"core":"centro","top":"topo","base":"base","edge":"borda","air":"ar","other":""},0]," ",["isHot",{"true":[["heatText"]],"other":"temperatura não medida"},0],["isDamp",{"true":[", ",["dampText"]],"other":""},0]],
  "page-mound.section.by-hand": [["position",{"core":"centro","top":"topo","base":"base","edge":"borda","air":"ar","other":""},0],": última medição com termômetro ",["ageText"],["wasHot",{"true":[", estava a ",["wasText"]],"other":""},0]],
  "page-mound.section.silent": [["position",{"core":"centro","top":"topo","base":"base","edge":"borda","air":"ar","other":""},0]," sem enviar",["hasSince",{"true":[" há ",["sinceText"]],"other":""},0],["wasHot",{"true":[", estava a ",["wasText"]],"other":""},0]],
  "page-mound.damp": ["Os pontos mostram a umidade pelo balanço de água: cerca de ",["aboutCount"]," % da massa úmida, provavelmente ",["lowCount"]," a ",["highCount"]," %."],
  "page-mound.empty": "Onde ficam as sondas em uma pilha: topo, centro, borda, base, e o ar ao lado",
  "page-mound.key": "Cores dos desenhos, do frio ao quente",
  "page-mound.key.says": "Como ler o desenho de um monte: a cor é calor, e o papel em branco é calor que nenhuma sonda mede. Os pontos são umidade, mais pontos quanto mais úmido; sem pontos, a umidade não é conhecida. Um contorno tracejado é uma sonda que parou de enviar, ou uma cujo número saltou e em que ainda não se acredita: ela tem um ponto de interrogação.",
};
