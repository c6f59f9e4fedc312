// Made from ../../en/season.json by `npm run messages`; change that instead.
export const seasonTexts = {
  "season.difference.not-known": "{measureCapitalPart}: not known in {groupName}.",
  "season.difference.too-few": "{measureCapitalPart}: {countsPart}: too few to tell.",
  "season.difference.same": "{measureCapitalPart}: the same in both ({countsPart}).",
  "season.difference.none-shows": "{measureCapitalPart}: no difference shows; anything from {lowerPart} lower to {higherPart} higher in {oneName} fits what was measured ({countsPart}).",
  "season.difference.apart": "{measureCapitalPart}: about {shiftPart} {isHigher, select, true {higher} other {lower}} in {oneName} than in {otherName}, between {nearPart} and {farPart} (95 in 100; {countsPart}).",
  "season.counts.each": "{oneCount, plural, one {# batch} other {# batches}} each",
  "season.counts.both": "{oneCount} and {otherCount} batches",
  "season.counts.few-each": "{oneCount, plural, =0 {no batches} =1 {one batch} =2 {two batches} =3 {three batches} =4 {four batches} =5 {five batches} =6 {six batches} =7 {seven batches} =8 {eight batches} =9 {nine batches} =10 {ten batches} =11 {eleven batches} =12 {twelve batches} other {# batches}} each",
  "season.counts.few-both": "{oneCount, plural, =0 {no} =1 {one} =2 {two} =3 {three} =4 {four} =5 {five} =6 {six} =7 {seven} =8 {eight} =9 {nine} =10 {ten} =11 {eleven} =12 {twelve} other {#}} and {otherCount, plural, =0 {no} =1 {one} =2 {two} =3 {three} =4 {four} =5 {five} =6 {six} =7 {seven} =8 {eight} =9 {nine} =10 {ten} =11 {eleven} =12 {twelve} other {#}} batches",
  "season.no-cause": "That two groups differ does not say why: weather, hands and materials change together.",
  "season.chance": "{comparedCount} measures are compared here, so {expectedCount, plural, =1 {one of them} other {about # of them}} may stand out by chance alone.",
  "season.closest.none-ended": "No batch of this stage has ended yet, so there is nothing to lay beside it.",
  "season.closest.too-young": "It is too young: twelve hours must have been measured before its curve says whom it is like.",
  "season.closest.other-hours": "None of the past batches was measured in the same hours of its age.",
  "season.closest.alike": "They went alike so far and were laid alike. That does not say that this one will end as they did.",
};
