// Made from ../../ko/page-words.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageWordsParams } from '../params/page-words.ts';

export const pageWordsTexts: PageTexts<PageWordsParams> = {
  "page-words.length": [["unit",{"second":[["lengthCount"],"초"],"minute":[["lengthCount"],"분"],"hour":[["lengthCount"],"시간"],"other":[["lengthCount"],"일"]},0]],
  "page-words.ago": [["lengthText"]," 전"],
  "page-words.just-now": "방금",
  "page-words.due": [["due",{"now":"지금","passed":[["lengthText"]," 전(",["timeText"],")까지 했어야 해요"],"other":[["timeText"],"까지 (",["lengthText"]," 안에)"]},0]],
  "page-words.day": [["dayNumber"],"일째"],
  "page-words.warning": [["warningText"],", ",["position",{"core":"중심부","top":"윗부분","base":"바닥","edge":"가장자리","other":"바깥 공기"},0]],
  "page-words.new-warning": ["새 경고, ",["pileName"],": ",["warningText"],". ",["todoText"]],
  "page-words.state": [["state",{"normal":"정상","unacknowledged":"봤다는 표시 없음","acknowledged":"봤다고 표시함","returned":"끝났고 봤다는 표시 없음","shelved":["미룸",["hasEnd",{"true":[" (",["untilText"],"까지)"],"other":""},0]],"other":"사용 중지"},0]],
  "page-words.silenced": [["warningText"],", ",["stateText"],"."],
  "page-words.no-answer": "Branhearth가 응답하지 않아요. 켜져 있고, 이 기기가 같은 네트워크에 있나요?",
  "page-words.held-up": "이 기기에서 로그아웃했고, 서버는 아직 몰라요.",
  "page-words.unreadable": ["이 페이지가 모르는 응답이에요(",["pathText"],"). 페이지를 다시 불러오세요."],
  "page-words.refused": "거절됨",
  "page-words.refused.says": ["서버가 까닭 없이 거절했어요(HTTP ",["statusText"],")."],
  "page-words.not-number": "숫자가 아님",
  "page-words.not-number.says": "아무것도 저장하지 않았어요. 숫자를 적을 칸에 다른 것이 있어요.",
  "page-words.not-number.field": ["숫자가 아니에요. 숫자를 적으세요. 예: ",["exampleNumber"]],
};
