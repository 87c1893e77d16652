using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Core.Weather;
using ScheduleOpt.Interchange.Weather;

namespace ScheduleOpt.Interchange.Demo;

/// <summary>An invented household with a real winter: nobody lives there, but the temperatures are a published typical year.</summary>
/// <remarks>
/// Weather: Fargo ND, National Renewable Energy Laboratory TMY2, via NREL/ssc (BSD-3); the NOTICE beside the files holds the licence.
/// The night of <see cref="AsOf"/> is a Wednesday at -13 degC and falling: the usual commute on Thursday, 200 km at -10 degC on Friday.
/// </remarks>
public static class DemoHousehold
{
    /// <summary>What must be said wherever its figures are shown.</summary>
    public const string Notice = "An invented household with the weather of a published typical year (Fargo ND, NREL TMY2).";

    /// <summary>Energy of the house without the car in a common year. [kWh]</summary>
    public const double AnnualHouseKwh = 9_000;

    /// <summary>The calendar year of the comparison.</summary>
    public const int Year = 2026;

    private static readonly Lazy<WeatherYear> Weather = new(() => WeatherCsv.Read(WeatherCsvText).Value);

    /// <summary>Its time zone: America/Chicago.</summary>
    public static HouseholdZone Zone { get; } = new(DateTimeZoneProviders.Tzdb["America/Chicago"]);

    /// <summary>The instant at which tonight's question is asked, five minutes after the car came home: 14 January 2026, 17:45.</summary>
    public static Instant AsOf { get; } = Instant.FromUtc(2026, 1, 14, 23, 45);

    /// <summary>State of charge when it is plugged in.</summary>
    public static StateOfCharge PlugInStateOfCharge { get; } = StateOfCharge.FromFraction(0.38);

    /// <summary>Its car: 60 kWh, 15.5 kWh per 100 km at 20 degC, 11.5 kW on board.</summary>
    public static Vehicle Vehicle { get; } = new()
    {
        UsableEnergy = Energy.FromKilowattHours(60),
        OnBoardCharger = Power.FromKilowatts(11.5),
        Consumption = new Consumption { ReferenceKwhPerKm = 0.155 },
    };

    /// <summary>The set-ups it weighs, from the outlet that is there to none at all.</summary>
    public static IReadOnlyList<DemoSetUp> SetUps { get; } =
    [
        new("Ordinary outlet, 120 V, 12 A", Circuit(120, 15, SupplyConnection.Receptacle)),
        new("Receptacle, 240 V, 16 A", Circuit(240, 20, SupplyConnection.Receptacle)),
        new("Hardwired unit, 240 V, 32 A", Circuit(240, 40, SupplyConnection.Hardwired)),
        new("Public charging alone", null),
    ];

    /// <summary>The set-up that tonight's question is asked for.</summary>
    public static DemoSetUp TonightSetUp => SetUps[1];

    /// <summary>Its driving from January 2026 to January 2027, as a text/calendar document.</summary>
    public static string CalendarText { get; } = Resource("driving.ics");

    /// <summary>Its weather year, as the document it is read from.</summary>
    public static string WeatherCsvText => Resource("cold-winter.csv");

    /// <summary>Its weather year.</summary>
    public static WeatherYear WeatherYear => Weather.Value;

    /// <summary>Tonight's question as a request of <c>POST /v1/schedules</c>.</summary>
    public static string TonightJson => Resource("tonight.json");

    /// <summary>The year's question as a request of <c>POST /v1/comparisons</c>.</summary>
    public static string YearJson => Resource("year.json");

    private static Supply Circuit(int voltageV, double breakerA, SupplyConnection connection) => new()
    {
        VoltageV = voltageV,
        BreakerA = breakerA,
        Connection = connection,
        Rule = ContinuousRatingRule.NecContinuousLoad,
    };

    private static string Resource(string name)
    {
        using var stream = typeof(DemoHousehold).Assembly.GetManifestResourceStream($"Demo/{name}")!;
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
