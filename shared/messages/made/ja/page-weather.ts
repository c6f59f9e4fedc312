// Made from ../../ja/page-weather.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageWeatherParams } from '../params/page-weather.ts';

export const pageWeatherTexts: PageTexts<PageWeatherParams> = {
  "page-weather.title": "明日の外気",
  "page-weather.lead": "薄い山は外気につられます。明日の外気が分かれば予測はずっと近くなり、分からなければ、明日は今日と同じとみなします。",
  "page-weather.what": ["Branhearthは、",["sourceText"],"の無料サービスに、多くても1時間に一度尋ねられます。ここで設定しない限り、どの場所についても尋ねません。設定すると、およそ1キロメートルに丸めた場所と、下の連絡先が送られます。その",["<","terms","利用条件"],"を見てください。データは",["<","licence","CC BY 4.0"],"です。"],
  "page-weather.contact": "連絡先",
  "page-weather.contact.hint": "メールアドレスか、あなたのページ。サービスは、誰に連絡すればよいかを求めています。",
  "page-weather.latitude": [["siteName"],"の緯度"],
  "page-weather.longitude": [["siteName"],"の経度"],
  "page-weather.degrees.hint": "47.38のように、度で。両方を空にすると、この場所については尋ねません。",
  "page-weather.save": "保存",
  "page-weather.saved": "保存しました。",
  "page-weather.not-a-number": "度の数を入れてください。",
  "page-weather.heard": [["siteName"],"：最後の応答は",["heardAtMs"],"。"],
  "page-weather.waiting": [["siteName"],"：まだ応答がありません。"],
  "page-weather.problem": [["siteName"],"：最後の要求は何も得られませんでした：",["problemText"],"。自動でもう一度行います。"],
  "page-weather.own": ["自分のプログラムは、",["<","mono","POST /api/sites/…/air-ahead"],"か、",["<","mono","…/air-ahead"],"に保持したメッセージで、これからの外気を伝えます。"],
};
