// Made from ../../ko/page-mound.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageMoundParams } from '../params/page-mound.ts';

export const pageMoundTexts: PageTexts<PageMoundParams> = {
  "page-mound.place": [["position",{"core":"중심부","top":"윗부분","base":"바닥","edge":"가장자리","air":"바깥 공기","other":""},0]],
  "page-mound.label": [["stand",{"silent":"신호 끊김","notMeasured":"재지 않음","other":"온도 센서 없음"},0]],
  "page-mound.label.doubted": [["tempText"],"?"],
  "page-mound.doubted": [["tempText"],", 의심스러움: ",["fromText"],"에서 갑자기 바뀜"],
  "page-mound.section": ["더미의 단면: ",["placesText"]],
  "page-mound.section.none": "더미의 단면: 아직 배정한 센서 없음",
  "page-mound.section.next": [["beforeText"],"; ",["nextText"]],
  "page-mound.section.measured": [["position",{"core":"중심부","top":"윗부분","base":"바닥","edge":"가장자리","air":"바깥 공기","other":""},0]," ",["isHot",{"true":[["heatText"]],"other":"온도를 재지 않음"},0],["isDamp",{"true":[", ",["dampText"]],"other":""},0]],
  "page-mound.section.by-hand": [["position",{"core":"중심부","top":"윗부분","base":"바닥","edge":"가장자리","air":"바깥 공기","other":""},0]," 마지막으로 손으로 잼 ",["ageText"],["wasHot",{"true":[", 그때 ",["wasText"]],"other":""},0]],
  "page-mound.section.silent": [["position",{"core":"중심부","top":"윗부분","base":"바닥","edge":"가장자리","air":"바깥 공기","other":""},0]," 신호 끊김",["hasSince",{"true":[" ",["sinceText"]," 동안"],"other":""},0],["wasHot",{"true":[", 그때 ",["wasText"]],"other":""},0]],
  "page-mound.damp": ["점은 물 계산으로 낸 수분이에요: 젖은 무게의 약 ",["aboutCount"]," %, 아마 ",["lowCount"],"~",["highCount"]," %."],
  "page-mound.empty": "더미에서 센서를 두는 곳: 윗부분, 중심부, 가장자리, 바닥, 옆의 바깥 공기",
  "page-mound.key": "그림의 색, 차가운 것에서 뜨거운 것까지",
  "page-mound.key.says": "더미 그림 읽기: 색은 온도이고, 빈 바탕은 온도를 재는 센서가 없는 곳이에요. 점은 수분이고, 많을수록 더 젖었어요. 점이 없으면 수분을 알 수 없어요. 끊긴 테두리는 신호가 끊긴 센서이거나, 숫자가 갑자기 뛰어 아직 믿지 않는 센서예요. 그런 센서에는 물음표가 있어요.",
};
