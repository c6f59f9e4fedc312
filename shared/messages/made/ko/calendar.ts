// Made from ../../ko/calendar.json by `npm run messages`; change that instead.
export const calendarTexts = {
  "calendar.turn": "뒤집기: {pileName}",
  "calendar.check": "살펴보기: {pileName}",
  "calendar.ready": "다 될 무렵: {pileName}",
  "calendar.called-off": "지금은 하지 마세요. 위험하게 뜨거워지고 있어요: {pileName}",
  "calendar.yours": "이 주소는 본인의 것이에요. 새로 바꿀 때까지, 이 주소를 가진 사람은 누구나 날짜를 읽을 수 있어요.",
  "calendar.yours-here": "이 주소는 본인의 것이고, 이 기기에서만 열려요. BRANHEARTH_PUBLIC_URL에 휴대전화가 닿는 주소를 넣으세요. 새로 바꿀 때까지, 이 주소를 가진 사람은 누구나 날짜를 읽을 수 있어요.",
};
