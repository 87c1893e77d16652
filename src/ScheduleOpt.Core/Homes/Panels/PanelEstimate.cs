namespace ScheduleOpt.Core.Homes.Panels;

/// <summary>An estimate of whether a service has room for a charging unit.</summary>
public sealed record PanelEstimate
{
    /// <summary>Stands beside every figure of an estimate.</summary>
    public const string Caution =
        "An estimate for the conversation with a licensed electrician, never a clearance: it needs an electrician's calculation, by the local code.";

    /// <summary>What it says.</summary>
    public required PanelOutcome Outcome { get; init; }

    /// <summary>The rule it follows, with its source.</summary>
    public required string Method { get; init; }

    /// <summary>Why it can't decide, and what else the reader must know.</summary>
    public required IReadOnlyList<string> Reasons { get; init; }

    /// <summary>What the house counts; none where it can't be decided. [kVA]</summary>
    public double? HouseKva { get; init; }

    /// <summary>What the charging unit counts; none where it can't be decided. [kVA]</summary>
    public double? ChargingKva { get; init; }

    /// <summary>Rating of the service. [kVA]</summary>
    public required double ServiceKva { get; init; }

    /// <summary>Both together; none where it can't be decided. [kVA]</summary>
    public double? TotalKva => HouseKva + ChargingKva;

    /// <summary>What is left of the rating, negative where it is exceeded; none where it can't be decided. [kVA]</summary>
    public double? LeftKva => ServiceKva - TotalKva;

    /// <summary>Load management as an alternative; none where it can't be decided.</summary>
    public ManagedMaximum? Managed { get; init; }

    internal static PanelEstimate Undecided(ElectricalService service, string method, IReadOnlyList<string> reasons) => new()
    {
        Outcome = PanelOutcome.CannotDecide, Method = method, Reasons = reasons, ServiceKva = service.RatingKva,
    };

    internal static PanelEstimate Of(
        ElectricalService service, string method, double houseKva, ChargingLoad load, double factor, IReadOnlyList<string> reasons)
    {
        var charging = factor * load.ServiceKva;
        return new PanelEstimate
        {
            // 1e-9 for sums that meet the rating exactly.
            Outcome = houseKva + charging <= service.RatingKva + 1e-9 ? PanelOutcome.RoomByThisEstimate : PanelOutcome.NoRoomByThisEstimate,
            Method = method,
            Reasons = reasons,
            HouseKva = houseKva,
            ChargingKva = charging,
            ServiceKva = service.RatingKva,
            Managed = ManagedMaximum.Of(service.RatingKva - houseKva, load, factor),
        };
    }
}
