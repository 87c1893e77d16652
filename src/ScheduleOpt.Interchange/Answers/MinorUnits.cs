namespace ScheduleOpt.Interchange.Answers;

/// <summary>How many digits the minor unit of a currency has.</summary>
/// <remarks>ISO 4217, list one. Currencies that are not listed here have two.</remarks>
internal static class MinorUnits
{
    private static readonly HashSet<string> None =
        ["BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "VND", "VUV", "XAF", "XOF", "XPF"];

    private static readonly HashSet<string> Three = ["BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"];

    /// <summary>The digits after the decimal point.</summary>
    public static int DigitsOf(string currency) => None.Contains(currency) ? 0 : Three.Contains(currency) ? 3 : 2;
}
