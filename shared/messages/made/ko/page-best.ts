// Made from ../../ko/page-best.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageBestParams } from '../params/page-best.ts';

export const pageBestTexts: PageTexts<PageBestParams> = {
  "page-best.title": "어느 회차가 가장 좋았나요?",
  "page-best.title.year": [["yearText"],"년에는 어느 회차가 가장 좋았나요?"],
  "page-best.stage": [["stage",{"bran":"겨 단계","soil":"흙 단계","other":""},0]],
  "page-best.best": ["가장 좋았던 회차",["isYear",{"true":["(",["yearText"],"년)"],"other":""},0],": ",["<","link",[["batchName"]]],", ",["judgedText"],"."],
  "page-best.alike": ["판정이 같은(“",["verdict",{"good":"좋음","usable":"쓸 만함","poor":"부족함","lost":"못 쓰게 됨","other":""},0],"”) 회차가 ",["alikeCount",{"=1":"한 개","other":[["#"],"개"]},1]," 더 있어요.",["isMeasured",{"true":[" 잰 것으로는 이 회차가 ",["alikeCount",{"=1":"그것","other":"그것들"},1],"보다 앞서요. 경고가 이어진 시간 ",["alarmHours"],", 중심부가 알맞은 온도였던 시간의 몫 ",["comfortFrac"],"."],"other":""},0]],
  "page-best.different": "무엇이 달랐나",
  "page-best.groups": [["verdict",{"good":"좋은 회차","usable":"쓸 만한 회차","poor":"부족한 회차","lost":"못 쓰게 된 회차","other":""},0]," ",["likeCount",{"=1":"한 개","other":[["#"],"개"]},1],"와 ",["lower",{"good":"좋은 회차","usable":"쓸 만한 회차","poor":"부족한 회차","lost":"못 쓰게 된 회차","other":""},0]," ",["lowerCount",{"=1":"한 개","other":[["#"],"개"]},1],["isYear",{"true":"(여기 보이는 모든 해)","other":""},0],":"],
  "page-best.like": [["verdict",{"good":"좋은 회차","usable":"쓸 만한 회차","poor":"부족한 회차","lost":"못 쓰게 된 회차","other":""},0]],
  "page-best.own": [["batchName"],": ",["figureText"],"."],
  "page-best.none-lower": ["더 낮게 판정한 회차가 없어서, 나란히 놓을 것이 없어요(",["likeText"],")."],
  "page-best.rest": "나머지",
  "page-best.nobody": [["batchCount",{"=1":"아직 이 회차를 판정한 사람이 없어서","other":["아직 이 회차 ",["#"],"개를 판정한 사람이 없어서"]},1],", 가장 좋은 것을 말할 수 없어요."],
  "page-best.unjudged": [["batchCount",{"=1":"회차 한 개를 아직 판정한 사람이 없어요.","other":["회차 ",["#"],"개를 아직 판정한 사람이 없어요."]},1]," 좋다고도 나쁘다고도 세지 않아요."],
  "page-best.order": "사람의 판정이 먼저예요. 판정이 같으면 경고가 이어진 시간이 짧은 회차, 그다음은 알맞은 온도가 더 길었던 회차예요. 우리가 정한 순서예요.",
  "page-best.alike.names": ["판정이 같은(“",["verdict",{"good":"좋음","usable":"쓸 만함","poor":"부족함","lost":"못 쓰게 됨","other":""},0],"”) 다른 ",["alikeCount",{"=1":"회차","other":"회차들"},1]],
  "page-best.unjudged.names": "판정 없음",
  "page-best.apart": [["apartCount",{"=0":"뚜렷이 다른 것이 없어요.","=1":"한 가지가 뚜렷이 달라요.","other":[["#"],"가지가 뚜렷이 달라요."]},1]],
  "page-best.few": "너무 적어서 알 수 없어요.",
  "page-best.whys": ["뒤의 것에 대해 사람들이 말한 것: ",["whysText"],"."],
  "page-best.why": [["whyText"],"(",["saidCount"],")"],
  "page-best.why.own": "직접 적은 말",
};
