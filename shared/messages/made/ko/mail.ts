// Made from ../../ko/mail.json by `npm run messages`; change that instead.
export const mailTexts = {
  "mail.foot": "센서만으로는 더미가 다 되었다거나 안전하다고 말하지 않아요. 이 메시지들은 화재를 막아 주지 않아요.",
  "mail.seen-it": "이것을 봤어요",
  "mail.seen-it-by-address": "이것을 봤어요(버튼 하나가 있는 페이지가 열려요):",
  "mail.look": "살펴보기",
  "mail.look-by-address": "살펴보기:",
};
