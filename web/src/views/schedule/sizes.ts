/** Heights the table and the chart have to agree on, px. */
export const AXIS_HEIGHT = 34;
export const TAGS_HEIGHT = 62;
export const ROW = 17;
/** Where rows are touched. */
export const ROW_COARSE = 30;
