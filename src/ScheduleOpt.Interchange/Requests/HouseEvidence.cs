using System.Globalization;
using ScheduleOpt.Interchange.HouseLoads;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>How well the use of the house without the car is known: it stands on the first page of a report.</summary>
/// <param name="Class">none, annualFigure, monthlyFigures, hourlySeries or meterFile.</param>
/// <param name="Words">The same in a sentence.</param>
public sealed record HouseEvidence(string Class, string Words)
{
    /// <summary>The longest source of an hourly series. [characters]</summary>
    internal const int MostSource = 300;

    internal static HouseEvidence Of(JsonField? field) => field is not { } given ? None
        : given.Element.TryGetProperty("meterFile", out _)
            ? new("meterFile", "Interval data of a meter file, laid on a common year hour by hour; what was missing in it stands among the warnings.")
        : given.Element.TryGetProperty("hourlyKwh", out _)
            ? new("hourlySeries", given.Element.TryGetProperty("source", out var source)
                ? $"An hourly series given by the asker: {source.GetString()}."
                : "An hourly series given by the asker; whether it is measured or modelled is not said.")
        : given.Element.TryGetProperty("annualKwh", out var annual)
            ? new("annualFigure", string.Create(
                CultureInfo.InvariantCulture,
                $"One annual figure of {annual.GetDouble() + 0.0:0.##} kWh on a cited shape ({HouseLoadShape.Source}): not measured at this house hour by hour."))
        : given.Element.TryGetProperty("monthlyKwh", out _)
            ? new("monthlyFigures", $"Twelve monthly figures, each spread over its hours on a cited shape ({HouseLoadShape.Source}): days and hours were not measured at this house.")
        : None;

    private static HouseEvidence None { get; } =
        new("none", "No house load is given: the bills are those of the car alone, so blocks, demand and minimum bills may be wrong.");
}
