// Made from ../../es/page-chart.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageChartParams } from '../params/page-chart.ts';

export const pageChartTexts: PageTexts<PageChartParams> = {
  "page-chart.nothing": "En este tiempo no se leyó nada.",
  "page-chart.heat": "Calor",
  "page-chart.heat.says": ["Temperatura en ",["unitText"]," a lo largo del tiempo. ",["linesText"],["hasAhead",{"true":[" Lo que viene: ",["aheadText"]],"other":""},0]],
  "page-chart.over-time": [["titleText"]," a lo largo del tiempo. ",["linesText"]],
  "page-chart.line": [["position",{"core":"Centro","top":"Arriba","base":"Base","edge":"Borde","air":"Aire","other":""},0],["isByHand",{"true":" a mano","other":""},0]," de ",["lowestText"]," a ",["highestText"],", máximo el ",["timeText"],", último ",["lastText"],"."],
  "page-chart.next-sentence": [["beforeText"]," ",["nextText"]],
  "page-chart.act": ["extender o voltear a ",["actC"]],
  "page-chart.by-hand": "○ medición a mano, cada una por sí sola.",
  "page-chart.expected": ["esperado: el centro en ocho de cada diez casos. ",["originText"],"."],
  "page-chart.ahead": "lo que viene: el centro en las próximas 24 horas en ocho de cada diez casos, si nadie toca la pila; la raya de cada trazo es el medio.",
  "page-chart.fan": ["En ",["firstHours"]," lo más probable es que el centro esté a ",["firstC"]," (",["firstLowText"]," a ",["firstHighText"]," en ocho de cada diez casos)",["laterText"],", si nadie la toca."],
  "page-chart.fan.later": [["beforeText"],", en ",["laterHours"]," a ",["laterC"]," (",["lowText"]," a ",["highText"],")"],
  "page-chart.readout": "Señala la gráfica para leerla.",
  "page-chart.readout.none": "nada leído",
  "page-chart.readout.value": [["position",{"core":"centro","top":"arriba","base":"base","edge":"borde","air":"aire","other":""},0]," ",["valueText"]],
  "page-chart.readout.expected": ["esperado ",["lowText"]," a ",["highC"]],
  "page-chart.readout.ahead": ["lo que viene ",["lowText"]," a ",["highC"],", lo más probable ",["middleC"]],
  "page-chart.table": "Lecturas como tabla",
  "page-chart.table.says": ["Las más nuevas primero; cada fila reúne ",["minutesCount"]," min: la media, y del mínimo al máximo donde difieren."],
  "page-chart.table.time": "Hora",
  "page-chart.table.column": [["position",{"core":"Centro","top":"Arriba","base":"Base","edge":"Borde","air":"Aire","other":""},0],", ",["quantityText"]],
  "page-chart.table.expected": ["Centro esperado, ",["unitText"]],
  "page-chart.table.cell": [["meanText"]," (",["lowText"]," a ",["highText"],")"],
  "page-chart.table.range": [["lowText"]," a ",["highText"]],
  "page-chart.ahead-table": "El próximo día como tabla",
  "page-chart.ahead-table.says": "El centro hora por hora, si nadie toca la pila; en ocho de cada diez casos queda entre los dos.",
  "page-chart.ahead-table.likely": ["Lo más probable, ",["unitText"]],
  "page-chart.ahead-table.between": ["Entre, ",["unitText"]],
};
