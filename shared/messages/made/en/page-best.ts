// Made from ../../en/page-best.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageBestParams } from '../params/page-best.ts';

export const pageBestTexts: PageTexts<PageBestParams> = {
  "page-best.title": "Which was best?",
  "page-best.title.year": ["Which was best in ",["yearText"],"?"],
  "page-best.stage": [["stage",{"bran":"Bran stage","soil":"Soil stage","other":""},0]],
  "page-best.best": [["<","link",[["batchName"]]],["isYear",{"true":[" was the best of ",["yearText"]],"other":" was the best"},0],": ",["judgedText"],"."],
  "page-best.alike": [["alikeCount",{"=1":"One more was","other":[["#"]," more were"]},1]," judged ",["verdict",{"good":"good","usable":"usable","poor":"poor","lost":"lost","other":""},0],".",["isMeasured",{"true":[" It stands before ",["alikeCount",{"=1":"that one","other":"them"},1]," by what was measured: warnings stood for ",["alarmHours"],", and the core was in its comfortable band for ",["comfortFrac"]," of the time."],"other":""},0]],
  "page-best.different": "What was different about it",
  "page-best.groups": [["likeCount",{"=1":["The one judged ",["verdict",{"good":"good","usable":"usable","poor":"poor","lost":"lost","other":""},0]],"other":["The ",["#"]," judged ",["verdict",{"good":"good","usable":"usable","poor":"poor","lost":"lost","other":""},0]]},1]," beside the ",["lowerCount",{"=1":["one judged ",["lower",{"good":"good","usable":"usable","poor":"poor","lost":"lost","other":""},0]],"other":[["#"]," judged ",["lower",{"good":"good","usable":"usable","poor":"poor","lost":"lost","other":""},0]]},1],["isYear",{"true":", of all years shown here","other":""},0],":"],
  "page-best.like": [["verdict",{"good":"the good ones","usable":"the usable ones","poor":"the poor ones","lost":"the lost ones","other":""},0]],
  "page-best.own": [["batchName"],": ",["figureText"],"."],
  "page-best.none-lower": ["None was judged lower, so there is nothing to lay beside ",["likeText"],"."],
  "page-best.rest": "The other measures",
  "page-best.nobody": [["batchCount",{"=1":"Nobody has judged this batch yet","other":["Nobody has judged these ",["#"]," batches yet"]},1],", so none can be called the best."],
  "page-best.unjudged": [["batchCount",{"=1":"Nobody has judged one more batch, which counts","other":["Nobody has judged ",["#"]," more batches, which count"]},1]," as neither good nor bad."],
  "page-best.order": "A person’s verdict goes first; of one verdict, the batch over which warnings stood for fewer hours, then the one longer in its comfortable band; our own order.",
  "page-best.alike.names": ["The ",["alikeCount",{"=1":"other","other":"others"},1]," judged ",["verdict",{"good":"good","usable":"usable","poor":"poor","lost":"lost","other":""},0]],
  "page-best.unjudged.names": "Not judged",
  "page-best.apart": [["apartCount",{"=0":"no measure differs clearly.","=1":"one measure differs clearly.","other":[["#"]," measures differ clearly."]},1]],
  "page-best.few": "too few to tell.",
  "page-best.whys": ["What people said of the latter: ",["whysText"],"."],
  "page-best.why": [["whyText"]," (",["saidCount"],")"],
  "page-best.why.own": "in their own words",
};
