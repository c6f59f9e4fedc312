// Made from ../../en/lineage.json by `npm run messages`; change that instead.
export const lineageTexts = {
  "lineage.remark.more-out-than-in": "{outKg} was written down as taken and {thereKg} as {isLaid, select, true {laid} other {put in}}: water added since may explain it, or a slip of the pen.",
};
