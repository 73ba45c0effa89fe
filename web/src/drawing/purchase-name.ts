/** What a purchase is called: the same on screens and in a calendar. */
export { purchaseName as nameOfPurchase } from '#shared/purchases/name.ts';
