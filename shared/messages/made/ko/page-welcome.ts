// Made from ../../ko/page-welcome.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageWelcomeParams } from '../params/page-welcome.ts';

export const pageWelcomeTexts: PageTexts<PageWelcomeParams> = {
  "page-welcome.title": "환영해요",
  "page-welcome.none": "아직 지켜보는 더미가 없어요.",
  "page-welcome.none.hint": "관리자나 주인이 첫 더미를 쌓으면 여기에 나와요.",
  "page-welcome.practise-meanwhile": ["그동안 ",["<","link","모의 더미로 연습하세요"],"."],
  "page-welcome.lay-first": "아직 지켜보는 더미가 없어요. 첫 더미를 쌓으세요.",
  "page-welcome.lead": "Branhearth는 겨와 흙 더미에 꽂은 센서의 값을 듣고, 더미마다 어떤지와 다음에 할 일을 쉬운 말로 알려 주고, 회차마다 보고서를 남겨요.",
  "page-welcome.demo": ["프로그램을 멈추고 그 폴더에서 ",["<","command","npm run demo"]," 명령을 실행하면, 이 페이지에 더미 네 개가 있는 지어낸 농장이 빠른 시간으로 나와요. 데이터는 임시 폴더에 있어요."],
  "page-welcome.publish": ["센서는 MQTT로 다음 토픽에 보내요: ",["<","topic",[["topicText"]]],". 센서 없이 해 보려면, ",["isOnlyHere",{"true":"Mosquitto 도구가 있을 때 이 기기에서","other":"Mosquitto 도구가 있는 아무 기기에서"},0]," 이 명령을 실행하세요:"],
  "page-welcome.copy": "복사",
  "page-welcome.copied": "복사함",
  "page-welcome.broker": ["브로커 ",["stateText"],": ",["detailText"]],
  "page-welcome.have": "무엇이 있나요?",
  "page-welcome.have.thermometer": "온도계",
  "page-welcome.have.sensor": "이미 값을 보내는 센서",
  "page-welcome.have.parts": "센서를 만들 부품",
  "page-welcome.have.nothing": "아직 없음: 보여 주세요",
  "page-welcome.thermometer": "더미 가운데까지 꽂고, 숫자가 멈출 때까지 기다렸다가, 온도계의 값을 적으세요.",
  "page-welcome.parts": [["<","link","센서 만드는 방법"],": 무엇을 사고, 어떻게 잇는지, 그리고 바로 넣을 수 있는 설정 파일. 값을 보내기 시작하면 여기에 나와요."],
  "page-welcome.nothing": "손에 든 모의 더미예요. 몇 분이면 되고 센서가 없어도 돼요.",
  "page-welcome.nothing.do": "모의 더미로 연습하기",
  "page-welcome.sensor.where": "값을 보낼 곳",
  "page-welcome.sensor.pile": "더미",
};
