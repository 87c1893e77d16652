using System.Globalization;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Numbers as sentences show them: the shortest text, the same in every country.</summary>
internal static class Plain
{
    /// <summary>A number in plain notation.</summary>
    public static string Number(double number) => number.ToString(CultureInfo.InvariantCulture);
}
