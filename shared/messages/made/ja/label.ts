// Made from ../../ja/label.json by `npm run messages`; change that instead.
export const labelTexts = {
  "label.opens": "このコードで、この山の日誌が開きます。",
  "label.opens-here": "このコードはこの機械でしか開きません。印刷する前に、BRANHEARTH_PUBLIC_URLにスマートフォンからつながるアドレスを設定してください。",
};
