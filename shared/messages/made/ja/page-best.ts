// Made from ../../ja/page-best.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageBestParams } from '../params/page-best.ts';

export const pageBestTexts: PageTexts<PageBestParams> = {
  "page-best.title": "どれがいちばん良かった？",
  "page-best.title.year": [["yearText"],"でどれがいちばん良かった？"],
  "page-best.stage": [["stage",{"bran":"ぬかの段階","soil":"土の段階","other":""},0]],
  "page-best.best": [["<","link",[["batchName"]]],"が",["isYear",{"true":[["yearText"],"で"],"other":""},0],"いちばん良かったです：",["judgedText"],"。"],
  "page-best.alike": ["ほかに",["alikeCount"],"回分が「",["verdict",{"good":"良い","usable":"使える","poor":"不十分","lost":"失敗","other":""},0],"」とされました。",["isMeasured",{"true":["測った値で、それより前に来ます。警告が続いたのは",["alarmHours"],"、中心部がちょうどよい温度だったのは時間の",["comfortFrac"],"です。"],"other":""},0]],
  "page-best.different": "違っていたところ",
  "page-best.groups": ["「",["verdict",{"good":"良い","usable":"使える","poor":"不十分","lost":"失敗","other":""},0],"」の",["likeCount"],"回分と、",["lowerCount",{"=1":["「",["lower",{"good":"良い","usable":"使える","poor":"不十分","lost":"失敗","other":""},0],"」の1回分"],"other":["「",["lower",{"good":"良い","usable":"使える","poor":"不十分","lost":"失敗","other":""},0],"」の",["#"],"回分"]},1],"を並べると",["isYear",{"true":"（ここに見せるすべての年）","other":""},0],"："],
  "page-best.like": [["verdict",{"good":"良いもの","usable":"使えるもの","poor":"不十分なもの","lost":"失敗したもの","other":""},0]],
  "page-best.own": [["batchName"],"：",["figureText"],"。"],
  "page-best.none-lower": ["これより低く評価されたものがないので、",["likeText"],"と並べて比べるものがありません。"],
  "page-best.rest": "ほかの量",
  "page-best.nobody": ["まだ誰もこの",["batchCount"],"回分の仕込みを評価していないので、どれがいちばん良いとも言えません。"],
  "page-best.unjudged": ["ほかに",["batchCount"],"回分をまだ誰も評価していません。良いとも悪いとも数えません。"],
  "page-best.order": "人の評価が先です。同じ評価なら、警告の続いた時間が短いもの、次にちょうどよい温度の時間が長いもの。私たちが決めた順です。",
  "page-best.alike.names": ["「",["verdict",{"good":"良い","usable":"使える","poor":"不十分","lost":"失敗","other":""},0],"」とされたほかの",["alikeCount"],"回分"],
  "page-best.unjudged.names": "評価なし",
  "page-best.apart": [["apartCount",{"=0":"はっきり違う量はありません。","=1":"一つの量がはっきり違います。","other":[["#"],"個の量がはっきり違います。"]},1]],
  "page-best.few": "少なすぎて分かりません。",
  "page-best.whys": ["後のものについて人が言ったこと：",["whysText"],"。"],
  "page-best.why": [["whyText"],"（",["saidCount"],"）"],
  "page-best.why.own": "自分の言葉で",
};
