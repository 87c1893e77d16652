using ScheduleOpt.Comparison.SetUps;
using ScheduleOpt.Core.Charging;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>What charging away from home costs.</summary>
/// <param name="PricePerKwh">What a kWh at the public meter costs: as stated, or with session prices what it costs in a full session. [currency/kWh]</param>
/// <param name="Place">The place with session prices; none: a price per kWh alone.</param>
internal sealed record AwayChargingDocument(decimal PricePerKwh, PublicPlace? Place);

/// <summary>Reads <c>awayCharging</c>: a price per kWh, and for public charging alone what a session costs and takes.</summary>
internal static class AwayChargingReader
{
    private static readonly Limits PerKwh = new(0, 20, "per kWh"), PerSession = new(0, 1000), PerMinute = new(0, 100, "per minute");
    private static readonly string[] OfSession = ["pricePerSession", "pricePerMinute", "leastPerSession", "powerKw", "detourMinutes", "timeValuePerHour"];

    /// <summary>Reads the prices.</summary>
    /// <param name="field">The object.</param>
    /// <param name="vehicle">The car; none where it is faulty.</param>
    public static AwayChargingDocument? Read(JsonField? field, Vehicle? vehicle)
    {
        if (field?.Members(["pricePerKwh", .. OfSession]) is not { } charging)
        {
            return null;
        }

        var before = charging.Faults.Count;
        var perKwh = charging.Required("pricePerKwh", PerKwh.ToString())?.Price(PerKwh);
        if (!OfSession.Any(charging.Has))
        {
            return perKwh is { } alone ? new(alone, null) : null;
        }

        var power = charging.Required("powerKw", "Sessions last as long as their energy over the power: give the mean power of a session.")?.Number(new(1, 500, "kW"));
        var price = new PublicPrice
        {
            PerKwh = perKwh ?? 0,
            PerSession = charging.Optional("pricePerSession")?.Price(PerSession) ?? 0,
            PerMinute = charging.Optional("pricePerMinute")?.Price(PerMinute) ?? 0,
            LeastPerSession = charging.Optional("leastPerSession")?.Price(PerSession),
            DetourMinutes = charging.Optional("detourMinutes")?.Price(new(0, 240, "min")) ?? 0,
            TimeValuePerHour = charging.Optional("timeValuePerHour")?.Price(PerSession),
        };
        if (charging.Has("timeValuePerHour") && !charging.Has("detourMinutes"))
        {
            charging.Faults.Add(charging.Pointer("detourMinutes"), "Is missing. Say how many minutes a session costs by going there.");
        }

        if (charging.Faults.Count > before || vehicle is null)
        {
            return null;
        }

        var place = new PublicPlace(price, power!.Value);
        return new(place.PricePerKwh(vehicle), place);
    }
}
