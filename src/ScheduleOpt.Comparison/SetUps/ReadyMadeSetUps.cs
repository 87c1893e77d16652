using ScheduleOpt.Core.Homes;

namespace ScheduleOpt.Comparison.SetUps;

/// <summary>The usual set-ups, ready to be chosen. Circuits, receptacles, panels and permits are for local codes and a licensed electrician.</summary>
/// <remarks>North America: continuous current 80 % of the breaker, NFPA 70 (NEC) 2023, 625.42 and 210.20(A); receptacles as usual on those
/// circuits (common practice, no source). Elsewhere: a dedicated circuit as the installer states it, IEC 60364-7-722; a domestic socket at
/// 10 A, the upper end of the prudent 8 to 10 A (CEN/CENELEC focus group on European EV charging, 7.6.5).</remarks>
public static class ReadyMadeSetUps
{
    /// <summary>Name of the charging unit among the parts of a first cost.</summary>
    public const string UnitPart = "charging unit";

    /// <summary>Name of the wiring among the parts of a first cost.</summary>
    public const string WiringPart = "circuit and wiring";

    /// <summary>Name of the permit among the parts of a first cost.</summary>
    public const string PermitPart = "permit";

    /// <summary>Name of a larger panel among the parts of a first cost; optional.</summary>
    public const string PanelPart = "larger panel";

    /// <summary>Name of a larger service among the parts of a first cost; optional.</summary>
    public const string ServicePart = "larger utility service";

    private static readonly FirstCostItem[] Upgrades =
        [new(PanelPart, PublishedRanges.PanelUpgrade, true), new(ServicePart, PublishedRanges.ServiceUpgrade, true)];

    /// <summary>All of them, weakest first in each region; public charging alone last.</summary>
    public static IReadOnlyList<ReadyMadeSetUp> All { get; } =
    [
        Outlet120V("outlet-120v-15a", "The 120 V receptacle that is there, 15 A circuit", 15, []),
        Outlet120V("outlet-120v-20a", "The 120 V receptacle that is there, 20 A circuit", 20, []),
        Outlet120V("own-circuit-120v-20a", "A 120 V receptacle on its own 20 A circuit", 20, OwnCircuit()),
        Receptacle240V("receptacle-240v-20a", "240 V receptacle (NEMA 6-20) on a 20 A circuit", 20),
        Receptacle240V("receptacle-240v-30a", "240 V receptacle (NEMA 14-30 or 6-30) on a 30 A circuit", 30),
        Receptacle240V("receptacle-240v-40a", "240 V receptacle (NEMA 14-50) on a 40 A circuit", 40),
        Receptacle240V("receptacle-240v-50a", "240 V receptacle (NEMA 14-50 or 6-50) on a 50 A circuit", 50),
        Hardwired("hardwired-208v-32a", "Hardwired unit of 32 A at 208 V, 40 A circuit", 208, 40),
        Hardwired("hardwired-240v-32a", "Hardwired unit of 32 A, 40 A circuit", 240, 40),
        Hardwired("hardwired-240v-40a", "Hardwired unit of 40 A, 50 A circuit", 240, 50),
        Hardwired("hardwired-240v-48a", "Hardwired unit of 48 A, 60 A circuit", 240, 60),
        Hardwired("hardwired-240v-64a", "Hardwired unit of 64 A, 80 A circuit", 240, 80),
        Hardwired("hardwired-240v-80a", "Hardwired unit of 80 A, 100 A circuit", 240, 100),
        new("socket-230v-10a", "The 230 V domestic socket that is there, limited to 10 A", Socket, [], PublishedRanges.Standby),
        WallUnit("wall-unit-230v-16a", "230 V wall unit of 16 A, one phase", 230, 1, 16),
        WallUnit("wall-unit-230v-32a", "230 V wall unit of 32 A, one phase", 230, 1, 32),
        WallUnit("wall-unit-400v-16a", "400 V three-phase wall unit of 16 A", 400, 3, 16),
        WallUnit("wall-unit-400v-32a", "400 V three-phase wall unit of 32 A", 400, 3, 32),
        new("public-only", "Public charging alone", null, [], null),
    ];

    private static Supply Socket => new() { VoltageV = 230, BreakerA = 16, Rule = ContinuousRatingRule.DomesticSocket };

    /// <summary>The one with an id; none where there is no such set-up.</summary>
    public static ReadyMadeSetUp? ById(string id) => All.FirstOrDefault(s => s.Id == id);

    private static FirstCostItem[] OwnCircuit() => [new(WiringPart, PublishedRanges.OwnCircuit120V), new(PermitPart, PublishedRanges.Permit)];

    private static ReadyMadeSetUp Outlet120V(string id, string name, int breakerA, FirstCostItem[] cost) =>
        new(id, name, Nec(120, breakerA, SupplyConnection.Receptacle), cost, PublishedRanges.Standby);

    private static ReadyMadeSetUp Receptacle240V(string id, string name, int breakerA) => new(
        id,
        name,
        Nec(240, breakerA, SupplyConnection.Receptacle),
        [new(UnitPart, PublishedRanges.Unit), new(WiringPart, PublishedRanges.Receptacle240V), new(PermitPart, PublishedRanges.Permit), .. Upgrades],
        PublishedRanges.Standby);

    private static ReadyMadeSetUp Hardwired(string id, string name, int voltageV, int breakerA) => new(
        id,
        name,
        Nec(voltageV, breakerA, SupplyConnection.Hardwired),
        [new(UnitPart, PublishedRanges.Unit), new(WiringPart, PublishedRanges.Hardwiring), new(PermitPart, PublishedRanges.Permit), .. Upgrades],
        PublishedRanges.Standby);

    /// <summary>No published range was found for these: only the household's own quotation counts.</summary>
    private static ReadyMadeSetUp WallUnit(string id, string name, int voltageV, int phases, int currentA) => new(
        id,
        name,
        new Supply
        {
            VoltageV = voltageV,
            Phases = phases,
            BreakerA = currentA,
            StatedCurrentA = currentA,
            Rule = ContinuousRatingRule.DedicatedCircuit,
            Connection = SupplyConnection.Hardwired,
        },
        [new(UnitPart, null), new(WiringPart, null), new(PanelPart, null, true), new(ServicePart, null, true)],
        PublishedRanges.Standby);

    private static Supply Nec(int voltageV, int breakerA, SupplyConnection connection) => new()
    {
        VoltageV = voltageV, BreakerA = breakerA, Rule = ContinuousRatingRule.NecContinuousLoad, Connection = connection,
    };
}
