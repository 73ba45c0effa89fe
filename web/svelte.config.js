/** Runes everywhere; styles of components go to files, because the page allows none in itself. */
export default { compilerOptions: { runes: true, css: 'external' } };
