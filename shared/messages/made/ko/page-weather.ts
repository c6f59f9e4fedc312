// Made from ../../ko/page-weather.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageWeatherParams } from '../params/page-weather.ts';

export const pageWeatherTexts: PageTexts<PageWeatherParams> = {
  "page-weather.title": "내일의 기온",
  "page-weather.lead": "얇은 더미는 기온을 따라가요. 내일의 기온을 알면 예측이 훨씬 가까워지고, 모르면 내일을 오늘과 같다고 봐요.",
  "page-weather.what": ["Branhearth는 ",["sourceText"],"의 무료 서비스에 많아야 한 시간에 한 번 물어볼 수 있어요. 여기서 정하지 않으면 어느 곳도 묻지 않아요. 정하면 1킬로미터쯤으로 어림한 위치와 아래의 연락처를 보내요. ",["<","terms","이용 약관"],"을 보세요. 데이터는 ",["<","licence","CC BY 4.0"],"예요."],
  "page-weather.contact": "연락처",
  "page-weather.contact.hint": "전자우편 주소나 내 페이지. 그 서비스는 누구에게 연락할지 알고 싶어 해요.",
  "page-weather.latitude": ["위도(",["siteName"],")"],
  "page-weather.longitude": ["경도(",["siteName"],")"],
  "page-weather.degrees.hint": "47.38 같은 도 단위로. 둘 다 비워 두면 이곳은 묻지 않아요.",
  "page-weather.save": "저장",
  "page-weather.saved": "저장했어요.",
  "page-weather.not-a-number": "도 단위의 숫자여야 해요.",
  "page-weather.heard": [["siteName"],": 마지막 답 ",["heardAtMs"],"."],
  "page-weather.waiting": [["siteName"],": 아직 답이 없어요."],
  "page-weather.problem": [["siteName"],": 마지막 요청에서 받은 것이 없어요: ",["problemText"],". 저절로 다시 물어봐요."],
  "page-weather.own": ["직접 만든 프로그램은 앞으로의 기온을 ",["<","mono","POST /api/sites/…/air-ahead"],"나 보관(retained) 메시지 ",["<","mono","…/air-ahead"],"로 보낼 수 있어요."],
};
