namespace ScheduleOpt.Interchange.Requests;

/// <summary>A version of the open charge-point protocol.</summary>
public enum ChargePointProtocol
{
    /// <summary>1.6.</summary>
    V16,

    /// <summary>2.0.1.</summary>
    V201,

    /// <summary>2.1.</summary>
    V21,
}

/// <summary>The unit in which a charging profile limits.</summary>
public enum ChargingRateUnit
{
    /// <summary>Amperes of each phase.</summary>
    Amperes,

    /// <summary>Watts over all phases.</summary>
    Watts,
}

/// <summary>The charging profile that is asked for.</summary>
/// <param name="Version">The protocol's version.</param>
/// <param name="Unit">The unit of its limits.</param>
public sealed record ChargingProfileChoice(ChargePointProtocol Version, ChargingRateUnit Unit);

/// <summary>Reads <c>chargingProfile</c> and the number of an outlet.</summary>
internal static class ChargingProfileReader
{
    private static readonly (string, ChargePointProtocol)[] Versions =
        [("1.6", ChargePointProtocol.V16), ("2.0.1", ChargePointProtocol.V201), ("2.1", ChargePointProtocol.V21)];

    private static readonly (string, ChargingRateUnit)[] Units = [("A", ChargingRateUnit.Amperes), ("W", ChargingRateUnit.Watts)];

    /// <summary>Reads the choice, and the outlet of a request's only car.</summary>
    public static (ChargingProfileChoice? Choice, int Outlet) Read(JsonField? field, bool isListed)
    {
        if (field?.Members("version", "outlet", "unit") is not { } profile)
        {
            return (null, 1);
        }

        if (isListed && profile.Has("outlet"))
        {
            profile.Faults.Add(profile.Pointer("outlet"), "Each of cars has its own: give it as outlet of the car.");
        }

        var version = profile.Required("version", "Must be one of \"1.6\", \"2.0.1\", \"2.1\".")?.Word(Versions);
        var unit = profile.Word("unit", Units, ChargingRateUnit.Amperes);
        var outlet = Outlet(profile);
        return (version is { } v ? new(v, unit) : null, outlet);
    }

    /// <summary>Reads <c>outlet</c>: the number by which the charger knows it; 0 means all of its outlets.</summary>
    public static int Outlet(JsonMembers members) => (int)members.Number("outlet", new(0, 1000) { Whole = true }, 1);
}
