// Made from ../../ko/page-chart.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageChartParams } from '../params/page-chart.ts';

export const pageChartTexts: PageTexts<PageChartParams> = {
  "page-chart.nothing": "이 기간에 읽은 값이 없어요.",
  "page-chart.heat": "온도",
  "page-chart.heat.says": ["시간에 따른 온도(",["unitText"],"). ",["linesText"],["hasAhead",{"true":[" 앞으로: ",["aheadText"]],"other":""},0]],
  "page-chart.over-time": ["시간에 따른 ",["titleText"],". ",["linesText"]],
  "page-chart.line": [["position",{"core":"중심부","top":"윗부분","base":"바닥","edge":"가장자리","air":"바깥 공기","other":""},0],["isByHand",{"true":"(손으로 잼)","other":""},0],": ",["lowestText"],"에서 ",["highestText"],"까지, 가장 높은 때 ",["timeText"],", 마지막 ",["lastText"],"."],
  "page-chart.next-sentence": [["beforeText"]," ",["nextText"]],
  "page-chart.act": [["actC"],"에서 펴거나 뒤집기"],
  "page-chart.by-hand": "○ 손으로 잰 값 하나하나.",
  "page-chart.expected": ["예상: 중심부가 열에 여덟은 있는 범위. ",["originText"],"."],
  "page-chart.ahead": "앞으로: 아무도 더미를 건드리지 않을 때, 다음 24시간 동안 중심부가 열에 여덟은 있을 범위. 선마다 있는 짧은 줄은 가운데예요.",
  "page-chart.fan": ["아무도 건드리지 않으면 ",["firstHours"]," 뒤 중심부는 아마 ",["firstC"],"예요(열에 여덟은 ",["firstLowText"],"~",["firstHighText"],")",["laterText"],"."],
  "page-chart.fan.later": [["beforeText"],", ",["laterHours"]," 뒤 ",["laterC"],"(",["lowText"],"~",["highText"],")"],
  "page-chart.readout": "그래프를 가리키면 값이 나와요.",
  "page-chart.readout.none": "읽은 값 없음",
  "page-chart.readout.value": [["position",{"core":"중심부","top":"윗부분","base":"바닥","edge":"가장자리","air":"바깥 공기","other":""},0]," ",["valueText"]],
  "page-chart.readout.expected": ["예상 ",["lowText"],"~",["highC"]],
  "page-chart.readout.ahead": ["앞으로 ",["lowText"],"~",["highC"],", 아마 ",["middleC"]],
  "page-chart.table": "측정값 표",
  "page-chart.table.says": ["새것부터. 한 줄에 ",["minutesCount"],"분을 모아 평균을 보이고, 다르면 가장 낮은 값과 가장 높은 값도 보여요."],
  "page-chart.table.time": "시각",
  "page-chart.table.column": [["position",{"core":"중심부","top":"윗부분","base":"바닥","edge":"가장자리","air":"바깥 공기","other":""},0],", ",["quantityText"]],
  "page-chart.table.expected": ["예상 중심부, ",["unitText"]],
  "page-chart.table.cell": [["meanText"]," (",["lowText"],"~",["highText"],")"],
  "page-chart.table.range": [["lowText"],"~",["highText"]],
  "page-chart.ahead-table": "앞으로 하루의 표",
  "page-chart.ahead-table.says": "아무도 더미를 건드리지 않을 때 앞으로 한 시간마다의 중심부. 열에 여덟은 두 값 사이에 있어요.",
  "page-chart.ahead-table.likely": ["아마, ",["unitText"]],
  "page-chart.ahead-table.between": ["사이, ",["unitText"]],
};
