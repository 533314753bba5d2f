/** The schema files of the forms, as they were released; each is named here once. */
import backFromService1 from "./entries/back-from-service.1.json" with { type: "json" };
import bookOpened1 from "./entries/book-opened.1.json" with { type: "json" };
import bookPutBack1 from "./entries/book-put-back.1.json" with { type: "json" };
import broughtForward1 from "./entries/brought-forward.1.json" with { type: "json" };
import calibrated1 from "./entries/calibrated.1.json" with { type: "json" };
import calibrationChecked1 from "./entries/calibration-checked.1.json" with { type: "json" };
import chargeSeen1 from "./entries/charge-seen.1.json" with { type: "json" };
import cleanAirRead1 from "./entries/clean-air-read.1.json" with { type: "json" };
import cylinderConnected1 from "./entries/cylinder-connected.1.json" with { type: "json" };
import cylinderRegistered1 from "./entries/cylinder-registered.1.json" with { type: "json" };
import dailyCardSeen1 from "./entries/daily-card-seen.1.json" with { type: "json" };
import disposed1 from "./entries/disposed.1.json" with { type: "json" };
import dutiesSet1 from "./entries/duties-set.1.json" with { type: "json" };
import entryVoided1 from "./entries/entry-voided.1.json" with { type: "json" };
import functionChecked1 from "./entries/function-checked.1.json" with { type: "json" };
import gasTestCauseClaimed1 from "./entries/gas-test-cause-claimed.1.json" with { type: "json" };
import gasTestVoid1 from "./entries/gas-test-void.1.json" with { type: "json" };
import gasTested1 from "./entries/gas-tested.1.json" with { type: "json" };
import instrumentRegistered1 from "./entries/instrument-registered.1.json" with { type: "json" };
import keyBegun1 from "./entries/key-begun.1.json" with { type: "json" };
import keyEnded1 from "./entries/key-ended.1.json" with { type: "json" };
import linePartRegistered1 from "./entries/line-part-registered.1.json" with { type: "json" };
import modelDescribed1 from "./entries/model-described.1.json" with { type: "json" };
import personRegistered1 from "./entries/person-registered.1.json" with { type: "json" };
import personRegisteredPrivate1 from "./entries/person-registered.private.1.json" with { type: "json" };
import placeRegistered1 from "./entries/place-registered.1.json" with { type: "json" };
import questionAnswered1 from "./entries/question-answered.1.json" with { type: "json" };
import reliedOn1 from "./entries/relied-on.1.json" with { type: "json" };
import returned1 from "./entries/returned.1.json" with { type: "json" };
import roundClosed1 from "./entries/round-closed.1.json" with { type: "json" };
import roundOpened1 from "./entries/round-opened.1.json" with { type: "json" };
import rulesAgreed1 from "./entries/rules-agreed.1.json" with { type: "json" };
import rulesSet1 from "./entries/rules-set.1.json" with { type: "json" };
import selfTestSeen1 from "./entries/self-test-seen.1.json" with { type: "json" };
import sensorFitted1 from "./entries/sensor-fitted.1.json" with { type: "json" };
import sensorMoved1 from "./entries/sensor-moved.1.json" with { type: "json" };
import sensorRemoved1 from "./entries/sensor-removed.1.json" with { type: "json" };
import sentAway1 from "./entries/sent-away.1.json" with { type: "json" };
import settingsCardSeen1 from "./entries/settings-card-seen.1.json" with { type: "json" };
import stationRegistered1 from "./entries/station-registered.1.json" with { type: "json" };
import tagLent1 from "./entries/tag-lent.1.json" with { type: "json" };
import tagReturned1 from "./entries/tag-returned.1.json" with { type: "json" };
import thingRetired1 from "./entries/thing-retired.1.json" with { type: "json" };
import thingVoided1 from "./entries/thing-voided.1.json" with { type: "json" };
import upsetSeen1 from "./entries/upset-seen.1.json" with { type: "json" };
import upsetSeenPrivate1 from "./entries/upset-seen.private.1.json" with { type: "json" };
import withdrawn1 from "./entries/withdrawn.1.json" with { type: "json" };
import withdrawnPrivate1 from "./entries/withdrawn.private.1.json" with { type: "json" };
import zeroAdjusted1 from "./entries/zero-adjusted.1.json" with { type: "json" };
import type { Schema } from "./form-schema.ts";

/** In the order of their names. */
export const FORM_FILES: readonly Schema[] = [
  backFromService1,
  bookOpened1,
  bookPutBack1,
  broughtForward1,
  calibrated1,
  calibrationChecked1,
  chargeSeen1,
  cleanAirRead1,
  cylinderConnected1,
  cylinderRegistered1,
  dailyCardSeen1,
  disposed1,
  dutiesSet1,
  entryVoided1,
  functionChecked1,
  gasTestCauseClaimed1,
  gasTestVoid1,
  gasTested1,
  instrumentRegistered1,
  keyBegun1,
  keyEnded1,
  linePartRegistered1,
  modelDescribed1,
  personRegistered1,
  personRegisteredPrivate1,
  placeRegistered1,
  questionAnswered1,
  reliedOn1,
  returned1,
  roundClosed1,
  roundOpened1,
  rulesAgreed1,
  rulesSet1,
  selfTestSeen1,
  sensorFitted1,
  sensorMoved1,
  sensorRemoved1,
  sentAway1,
  settingsCardSeen1,
  stationRegistered1,
  tagLent1,
  tagReturned1,
  thingRetired1,
  thingVoided1,
  upsetSeen1,
  upsetSeenPrivate1,
  withdrawn1,
  withdrawnPrivate1,
  zeroAdjusted1,
];
