/** The part of the UCUM library's interface that the tests use; the package brings no types. */
declare module "@lhncbc/ucum-lhc" {
  interface Conversion {
    readonly status: "succeeded" | "failed" | "error";
    readonly toVal: number;
  }
  interface Utils {
    convertUnitTo(from: string, value: number, to: string): Conversion;
  }
  const ucum: { readonly UcumLhcUtils: { getInstance(): Utils } };
  export default ucum;
}
