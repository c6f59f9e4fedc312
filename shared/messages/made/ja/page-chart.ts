// Made from ../../ja/page-chart.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageChartParams } from '../params/page-chart.ts';

export const pageChartTexts: PageTexts<PageChartParams> = {
  "page-chart.nothing": "この時間には測定値がありません。",
  "page-chart.heat": "熱",
  "page-chart.heat.says": ["時間を追った温度（",["unitText"],"）。",["linesText"],["hasAhead",{"true":["これから：",["aheadText"]],"other":""},0]],
  "page-chart.over-time": ["時間を追った",["titleText"],"。",["linesText"]],
  "page-chart.line": [["position",{"core":"中心部","top":"上部","base":"底部","edge":"端","air":"外気","other":""},0],["isByHand",{"true":"（手動で測定）","other":""},0],"：",["lowestText"],"から",["highestText"],"、最高は",["timeText"],"、最後は",["lastText"],"。"],
  "page-chart.next-sentence": [["beforeText"],["nextText"]],
  "page-chart.act": [["actC"],"で広げるか切り返す"],
  "page-chart.by-hand": "○ 手動で測定、一つずつ。",
  "page-chart.expected": ["期待：中心部が10回に8回入る範囲。",["originText"],"。"],
  "page-chart.ahead": "これから：誰も山に触らなければ、これからの24時間に中心部が10回に8回入る範囲。線の短い横線は真ん中。",
  "page-chart.fan": ["誰も触らなければ、中心部は",["firstHours"],"で",["firstC"],"になる見込みです（10回に8回は",["firstLowText"],"～",["firstHighText"],"）",["laterText"],"。"],
  "page-chart.fan.later": [["beforeText"],"、",["laterHours"],"で",["laterC"],"（",["lowText"],"～",["highText"],"）"],
  "page-chart.readout": "グラフを指すと値が読めます。",
  "page-chart.readout.none": "測定値なし",
  "page-chart.readout.value": [["position",{"core":"中心部","top":"上部","base":"底部","edge":"端","air":"外気","other":""},0],["valueText"]],
  "page-chart.readout.expected": ["期待",["lowText"],"～",["highC"]],
  "page-chart.readout.ahead": ["これから",["lowText"],"～",["highC"],"、見込み",["middleC"]],
  "page-chart.table": "測定値の表",
  "page-chart.table.says": ["新しい順。1行に",["minutesCount"],"分をまとめ、平均と、違うときは最低から最高までを示します。"],
  "page-chart.table.time": "時刻",
  "page-chart.table.column": [["position",{"core":"中心部","top":"上部","base":"底部","edge":"端","air":"外気","other":""},0],"、",["quantityText"]],
  "page-chart.table.expected": ["期待される中心部、",["unitText"]],
  "page-chart.table.cell": [["meanText"],"（",["lowText"],"～",["highText"],"）"],
  "page-chart.table.range": [["lowText"],"～",["highText"]],
  "page-chart.ahead-table": "これから1日の表",
  "page-chart.ahead-table.says": "誰も山に触らないときの、1時間ごとの中心部。10回に8回はこの二つの間に収まります。",
  "page-chart.ahead-table.likely": ["見込み、",["unitText"]],
  "page-chart.ahead-table.between": ["範囲、",["unitText"]],
};
