// Made from ../../ja/page-words.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageWordsParams } from '../params/page-words.ts';

export const pageWordsTexts: PageTexts<PageWordsParams> = {
  "page-words.length": [["unit",{"second":[["lengthCount"],"秒"],"minute":[["lengthCount"],"分"],"hour":[["lengthCount"],"時間"],"other":[["lengthCount",{"other":[["#"],"日"]},1]]},0]],
  "page-words.ago": [["lengthText"],"前"],
  "page-words.just-now": "たったいま",
  "page-words.due": [["due",{"now":"いますぐ","passed":["期限は",["lengthText"],"前、",["timeText"],"でした"],"other":[["timeText"],"まで（あと",["lengthText"],"）"]},0]],
  "page-words.day": [["dayNumber"],"日目"],
  "page-words.warning": [["warningText"],"、",["position",{"core":"中心部","top":"上部","base":"底部","edge":"端","other":"外気"},0]],
  "page-words.new-warning": [["pileName"],"の新しい警告：",["warningText"],"。",["todoText"]],
  "page-words.state": [["state",{"normal":"警告なし","unacknowledged":"「見ました」の答えなし","acknowledged":"「見ました」と答えた","returned":"終わったが、まだ「見ました」の答えなし","shelved":["保留中",["hasEnd",{"true":["（",["untilText"],"まで）"],"other":""},0]],"other":"使用停止"},0]],
  "page-words.silenced": [["warningText"],"、",["stateText"],"。"],
  "page-words.no-answer": "Branhearthが応答しません。動いていますか？この端末は同じネットワークにありますか？",
  "page-words.held-up": "この端末ではログアウトしましたが、サーバーにはまだ伝わっていません。",
  "page-words.unreadable": [["pathText"],"の応答が、このページの知っているものではありません。ページを読み込み直してください。"],
  "page-words.refused": "断られました",
  "page-words.refused.says": ["サーバーがこれを断り、理由を示しませんでした（HTTP ",["statusText"],"）。"],
  "page-words.not-number": "数ではありません",
  "page-words.not-number.says": "何も保存していません。数の欄に、ほかのものが入っています。",
  "page-words.not-number.field": ["これは数ではありません。",["exampleNumber"],"のような数を書いてください。"],
};
