using System.Globalization;

namespace ScheduleOpt.Comparison.Tonight.Explanations;

/// <summary>Figures in sentences.</summary>
internal static class Sentences
{
    /// <summary>Money to a tenth of a cent.</summary>
    public static string Money(double amount, string currency) => string.Create(CultureInfo.InvariantCulture, $"{Math.Round(amount, 3) + 0:0.000} {currency}");
}
