// Made from ../../ja/page-mound.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageMoundParams } from '../params/page-mound.ts';

export const pageMoundTexts: PageTexts<PageMoundParams> = {
  "page-mound.place": [["position",{"core":"中心部","top":"上部","base":"底部","edge":"端","air":"外気","other":""},0]],
  "page-mound.label": [["stand",{"silent":"応答なし","notMeasured":"測定なし","other":"温度センサーなし"},0]],
  "page-mound.label.doubted": [["tempText"],"？"],
  "page-mound.doubted": [["tempText"],"（疑わしい：",["fromText"],"から急に変化）"],
  "page-mound.section": ["山の断面：",["placesText"]],
  "page-mound.section.none": "山の断面：まだセンサーが割り当てられていません",
  "page-mound.section.next": [["beforeText"],"、",["nextText"]],
  "page-mound.section.measured": [["position",{"core":"中心部","top":"上部","base":"底部","edge":"端","air":"外気","other":""},0],["isHot",{"true":[["heatText"]],"other":"温度の測定なし"},0],["isDamp",{"true":["、",["dampText"]],"other":""},0]],
  "page-mound.section.by-hand": [["position",{"core":"中心部","top":"上部","base":"底部","edge":"端","air":"外気","other":""},0],"、最後に手動で測ったのは",["ageText"],["wasHot",{"true":["、",["wasText"]],"other":""},0]],
  "page-mound.section.silent": [["position",{"core":"中心部","top":"上部","base":"底部","edge":"端","air":"外気","other":""},0],"応答なし",["hasSince",{"true":["（",["sinceText"],"）"],"other":""},0],["wasHot",{"true":["、前は",["wasText"]],"other":""},0]],
  "page-mound.damp": ["点は、水分収支による水分です。湿量のおよそ",["aboutCount"]," %、おそらく",["lowCount"],"～",["highCount"]," %。"],
  "page-mound.empty": "山の中のセンサーの場所：上部、中心部、端、底部と、そばの外気",
  "page-mound.key": "絵の色、冷たいものから熱いものへ",
  "page-mound.key.says": "山の絵の読み方：色は熱で、色のない紙の部分はどのセンサーも測っていません。点は湿り具合で、多いほど湿っています。点がなければ分かりません。途切れた輪郭は、応答のないセンサーか、値が急に変わってまだ信用できないセンサーで、疑問符が付きます。",
};
