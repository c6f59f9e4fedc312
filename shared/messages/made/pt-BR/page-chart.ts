// Made from ../../pt-BR/page-chart.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageChartParams } from '../params/page-chart.ts';

export const pageChartTexts: PageTexts<PageChartParams> = {
  "page-chart.nothing": "Nada foi lido nesse tempo.",
  "page-chart.heat": "Calor",
  "page-chart.heat.says": ["Temperatura em ",["unitText"]," ao longo do tempo. ",["linesText"],["hasAhead",{"true":[" Adiante: ",["aheadText"]],"other":""},0]],
  "page-chart.over-time": [["titleText"]," ao longo do tempo. ",["linesText"]],
  "page-chart.line": [["position",{"core":"Centro","top":"Topo","base":"Base","edge":"Borda","air":"Ar","other":""},0],["isByHand",{"true":" com termômetro","other":""},0]," de ",["lowestText"]," a ",["highestText"],", o mais alto: ",["timeText"],", o último: ",["lastText"],"."],
  "page-chart.next-sentence": [["beforeText"]," ",["nextText"]],
  "page-chart.act": ["espalhe ou revire a partir de ",["actC"]],
  "page-chart.by-hand": "○ medido com termômetro, cada um por si.",
  "page-chart.expected": ["esperado: o centro em oito de dez casos. ",["originText"],"."],
  "page-chart.ahead": "adiante: as próximas 24 horas do centro em oito de dez casos, se ninguém tocar na pilha; a marca em cada traço é o meio.",
  "page-chart.fan": ["Em ",["firstHours"]," o mais provável é o centro estar a ",["firstC"]," (",["firstLowText"]," a ",["firstHighText"]," em oito de dez casos)",["laterText"],", se ninguém tocar nela."],
  "page-chart.fan.later": [["beforeText"],", em ",["laterHours"]," a ",["laterC"]," (",["lowText"]," a ",["highText"],")"],
  "page-chart.readout": "Aponte para o gráfico para ler.",
  "page-chart.readout.none": "nada lido",
  "page-chart.readout.value": [["position",{"core":"centro","top":"topo","base":"base","edge":"borda","air":"ar","other":""},0]," ",["valueText"]],
  "page-chart.readout.expected": ["esperado ",["lowText"]," a ",["highC"]],
  "page-chart.readout.ahead": ["adiante ",["lowText"]," a ",["highC"],", mais provável ",["middleC"]],
  "page-chart.table": "Leituras em tabela",
  "page-chart.table.says": ["As mais novas primeiro; cada linha reúne ",["minutesCount"]," min: a média, e do mais baixo ao mais alto onde diferem."],
  "page-chart.table.time": "Hora",
  "page-chart.table.column": [["position",{"core":"Centro","top":"Topo","base":"Base","edge":"Borda","air":"Ar","other":""},0],", ",["quantityText"]],
  "page-chart.table.expected": ["Centro esperado, ",["unitText"]],
  "page-chart.table.cell": [["meanText"]," (",["lowText"]," a ",["highText"],")"],
  "page-chart.table.range": [["lowText"]," a ",["highText"]],
  "page-chart.ahead-table": "O próximo dia em tabela",
  "page-chart.ahead-table.says": "O centro hora a hora adiante, se ninguém tocar na pilha; em oito de dez casos fica entre os dois.",
  "page-chart.ahead-table.likely": ["Mais provável, ",["unitText"]],
  "page-chart.ahead-table.between": ["Entre, ",["unitText"]],
};
