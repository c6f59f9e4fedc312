// Made from ../../en/page-chart.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageChartParams } from '../params/page-chart.ts';

export const pageChartTexts: PageTexts<PageChartParams> = {
  "page-chart.nothing": "Nothing was read in this time.",
  "page-chart.heat": "Heat",
  "page-chart.heat.says": ["Temperature in ",["unitText"]," over time. ",["linesText"],["hasAhead",{"true":[" Ahead: ",["aheadText"]],"other":""},0]],
  "page-chart.over-time": [["titleText"]," over time. ",["linesText"]],
  "page-chart.line": [["position",{"core":"Core","top":"Top","base":"Base","edge":"Edge","air":"Air","other":""},0],["isByHand",{"true":" by hand","other":""},0]," from ",["lowestText"]," to ",["highestText"],", highest on ",["timeText"],", last ",["lastText"],"."],
  "page-chart.next-sentence": [["beforeText"]," ",["nextText"]],
  "page-chart.act": ["spread or turn at ",["actC"]],
  "page-chart.by-hand": "○ measured by hand, each by itself.",
  "page-chart.expected": ["expected: the core in eight of ten cases. ",["originText"],"."],
  "page-chart.ahead": "ahead: the core’s next 24 hours in eight of ten cases, if nobody touches the pile; the dash on each stroke is the middle.",
  "page-chart.fan": ["In ",["firstHours"]," the core is most likely at ",["firstC"]," (",["firstLowText"]," to ",["firstHighText"]," in eight of ten cases)",["laterText"],", if nobody touches it."],
  "page-chart.fan.later": [["beforeText"],", in ",["laterHours"]," at ",["laterC"]," (",["lowText"]," to ",["highText"],")"],
  "page-chart.readout": "Point at the chart to read it off.",
  "page-chart.readout.none": "nothing read",
  "page-chart.readout.value": [["position",{"core":"core","top":"top","base":"base","edge":"edge","air":"air","other":""},0]," ",["valueText"]],
  "page-chart.readout.expected": ["expected ",["lowText"]," to ",["highC"]],
  "page-chart.readout.ahead": ["ahead ",["lowText"]," to ",["highC"],", most likely ",["middleC"]],
  "page-chart.table": "Readings as a table",
  "page-chart.table.says": ["Newest first; each row gathers ",["minutesCount"]," min: mean, and from lowest to highest where they differ."],
  "page-chart.table.time": "Time",
  "page-chart.table.column": [["position",{"core":"Core","top":"Top","base":"Base","edge":"Edge","air":"Air","other":""},0],", ",["quantityText"]],
  "page-chart.table.expected": ["Expected core, ",["unitText"]],
  "page-chart.table.cell": [["meanText"]," (",["lowText"]," to ",["highText"],")"],
  "page-chart.table.range": [["lowText"]," to ",["highText"]],
  "page-chart.ahead-table": "The day ahead as a table",
  "page-chart.ahead-table.says": "The core hour by hour ahead, if nobody touches the pile; in eight of ten cases it stays between the two.",
  "page-chart.ahead-table.likely": ["Most likely, ",["unitText"]],
  "page-chart.ahead-table.between": ["Between, ",["unitText"]],
};
