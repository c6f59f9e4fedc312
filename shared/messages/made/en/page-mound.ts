// Made from ../../en/page-mound.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageMoundParams } from '../params/page-mound.ts';

export const pageMoundTexts: PageTexts<PageMoundParams> = {
  "page-mound.place": [["position",{"core":"core","top":"top","base":"base","edge":"edge","air":"air","other":""},0]],
  "page-mound.label": [["stand",{"silent":"silent","notMeasured":"not measured","other":"no heat probe"},0]],
  "page-mound.label.doubted": [["tempText"],"?"],
  "page-mound.doubted": [["tempText"],", doubted: a jump from ",["fromText"]],
  "page-mound.section": ["Section of the pile: ",["placesText"]],
  "page-mound.section.none": "Section of the pile: no probe claimed yet",
  "page-mound.section.next": [["beforeText"],"; ",["nextText"]],
  "page-mound.section.measured": [["position",{"core":"core","top":"top","base":"base","edge":"edge","air":"air","other":""},0]," ",["isHot",{"true":[["heatText"]],"other":"temperature not measured"},0],["isDamp",{"true":[", ",["dampText"]],"other":""},0]],
  "page-mound.section.by-hand": [["position",{"core":"core","top":"top","base":"base","edge":"edge","air":"air","other":""},0]," last measured by hand ",["ageText"],["wasHot",{"true":[", was ",["wasText"]],"other":""},0]],
  "page-mound.section.silent": [["position",{"core":"core","top":"top","base":"base","edge":"edge","air":"air","other":""},0]," silent",["hasSince",{"true":[" for ",["sinceText"]],"other":""},0],["wasHot",{"true":[", was ",["wasText"]],"other":""},0]],
  "page-mound.damp": ["The dots show moisture by the water balance: about ",["aboutCount"]," % of the wet mass, likely ",["lowCount"]," to ",["highCount"]," %."],
  "page-mound.empty": "Where probes sit in a pile: top, core, edge, base, and air beside it",
  "page-mound.key": "Colours of the drawings, from cool to hot",
  "page-mound.key.says": "How to read a mound: colour is heat, and bare paper is heat that no probe measures. Dots are damp, the more the damper; without dots the damp is not known. A dashed outline is a probe gone silent, or one whose number jumped and is not believed yet: it has a question mark.",
};
