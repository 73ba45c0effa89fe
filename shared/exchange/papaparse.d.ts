/** As much of Papa Parse as is used: its published types bring all of Node's with them, which shared/ must not know. */
declare module 'papaparse' {
  interface Papa {
    parse(
      text: string,
      config: {
        readonly delimiter: string;
        readonly newline?: '\r' | '\n' | '\r\n';
        readonly preview?: number;
      },
    ): {
      readonly data: string[][];
      readonly errors: readonly { readonly code: string; readonly row?: number }[];
    };
    unparse(
      rows: readonly (readonly string[])[],
      config: { readonly delimiter: string; readonly newline: string },
    ): string;
  }
  const papa: Papa;
  export default papa;
}
