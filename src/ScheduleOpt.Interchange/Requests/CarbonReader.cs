using System.Text.Json;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>What emissions of imported energy are to weigh beside the bill.</summary>
/// <param name="PricePerTonne">Price of a tonne of carbon dioxide. [currency/t]</param>
/// <param name="GramsPerKwh">What a kWh emits at all times; none: <paramref name="Hourly"/> says. [g/kWh]</param>
/// <param name="Hourly">What a kWh emits, interval by interval; before and after, the nearest value holds. [g/kWh]</param>
public sealed record CarbonDocument(decimal PricePerTonne, double? GramsPerKwh, Forecast? Hourly);

/// <summary>Reads <c>carbon</c>.</summary>
internal static class CarbonReader
{
    // Above any price proposed, and above coal's 1,000 g/kWh with all losses.
    private static readonly Limits PerTonne = new(0, 10_000, "per tonne");
    private static readonly Limits Grams = new(0, 5000, "g/kWh");

    /// <summary>Reads the carbon price.</summary>
    public static CarbonDocument? Read(JsonField? field, DocumentClock clock)
    {
        if (field?.Members("pricePerTonne", "gramsPerKwh") is not { } carbon)
        {
            return null;
        }

        var price = carbon.Required("pricePerTonne", PerTonne.ToString())?.Exact(PerTonne);
        if (carbon.Required("gramsPerKwh", "Give a number, or start, intervalMinutes and gramsPerKwh.") is not { } grams)
        {
            return null;
        }

        if (grams.Element.ValueKind == JsonValueKind.Object)
        {
            var hourly = ForecastReader.Read(grams, clock, "gramsPerKwh", Grams);
            return price is { } p && hourly is not null ? new(p, null, hourly) : null;
        }

        var constant = grams.Number(Grams);
        return price is { } each && constant is not null ? new(each, constant, null) : null;
    }
}
