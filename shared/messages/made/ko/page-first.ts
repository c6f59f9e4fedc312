// Made from ../../ko/page-first.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageFirstParams } from '../params/page-first.ts';

export const pageFirstTexts: PageTexts<PageFirstParams> = {
  "page-first.server": "서버",
  "page-first.port": "포트",
  "page-first.tls": "TLS",
  "page-first.tls.on": [["isTls",{"true":"켜짐","other":"꺼짐"},0]],
  "page-first.only-here": ["브로커가 이 기기에만 답해요. 다른 기기에서 보낸 것은 브로커에 닿지 않아요. ",["<","link","센서와 휴대전화 들여보내기"]],
  "page-first.key.do": "센서에 쓸 키 만들기",
  "page-first.key.why": "다른 곳의 기기에는 키가 필요해요. 키는 사용자 이름과 비밀번호예요.",
  "page-first.key.ask": "다른 곳의 기기에는 키가 필요해요. 주인에게 부탁하세요.",
  "page-first.waiting": "첫 메시지를 기다리고 있어요. 아직 브로커에 온 것이 없어요.",
  "page-first.came": ["첫 메시지가 ",["cameAtMs"],"에 왔어요. 토픽: ",["<","mono",[["topicText"]]],"."],
  "page-first.unread": [["<","mono",[["topicText"]]]," 토픽의 메시지를 쓰지 못했어요(",["lastAgoMs"],"). ",["whyText"]],
  "page-first.unused": [["<","mono",[["topicText"]]]," 토픽으로 메시지가 오는데, Branhearth가 스스로는 알아듣지 못해요. ",["<","link","어느 값인지 알려 주기"]],
  "page-first.turned-away": [["<","b",[["whatText"]]],", ",["addressText"],"에서, ",["lastAgoMs"],". ",["meaningText"]],
  "page-first.outside": "누구를 들여보낼지는 직접 쓰는 브로커가 정해요. 무엇을 거절했는지도 그 브로커가 알아요.",
};
