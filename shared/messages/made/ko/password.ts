// Made from ../../ko/password.json by `npm run messages`; change that instead.
export const passwordTexts = {
  "password.too-short": "비밀번호는 {leastCount, plural, other {#자}} 이상이어야 해요. 낱말 네 개를 이어 쓰면 좋아요.",
  "password.too-long": "비밀번호는 {mostCount, plural, other {#자}} 이하여야 해요.",
  "password.few-characters": "비밀번호에 같은 글자 몇 개만 되풀이돼요. 서로 다른 글자를 더 쓰세요.",
  "password.repeats": "비밀번호가 되풀이돼요. 되풀이되지 않는 것을 고르세요.",
  "password.guessable": "비밀번호가 너무 쉬워요. 흔한 낱말이나 이름이나 나란한 자판으로 되어 있어요. 본인만의 낱말을 더하세요.",
};
