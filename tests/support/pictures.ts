/** The smallest files of each kind that is taken, and some that only say they are. */

/** One grey pixel. */
export const PNG = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg==',
  'base64',
);
export const JPEG = Buffer.from('ffd8ffe000104a46494600010100000100010000ffd9', 'hex');
export const WEBP = Buffer.from('52494646240000005745425056503820', 'hex');
export const PDF = Buffer.from('%PDF-1.4\n%%EOF\n');
