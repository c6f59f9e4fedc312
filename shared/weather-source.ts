/** The weather service as its terms of use want it named wherever its data are shown. */
export const weatherSource = 'MET Norway';
export const weatherTermsUrl = 'https://api.met.no/doc/TermsOfService';
export const weatherLicenceUrl = 'https://creativecommons.org/licenses/by/4.0/';
