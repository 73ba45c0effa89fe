/** The demo as whoever opens it on that day should find it: moved by whole weeks into their week. */
import type { BuildFile } from '../contract/build-file.ts';
import { readBuild } from '../contract/read.ts';
import { movedTo } from './shift.ts';
import { wagtail } from './wagtail.ts';

/** @param today a day, `2027-03-09` */
export function demoOn(today: string): BuildFile {
  return readBuild(movedTo(wagtail(), today));
}
