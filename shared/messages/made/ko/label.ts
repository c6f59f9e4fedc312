// Made from ../../ko/label.json by `npm run messages`; change that instead.
export const labelTexts = {
  "label.opens": "이 코드는 이 더미의 일지를 열어요.",
  "label.opens-here": "이 코드는 이 기기에서만 열려요. 인쇄하기 전에 BRANHEARTH_PUBLIC_URL에 휴대전화가 닿는 주소를 넣으세요.",
};
