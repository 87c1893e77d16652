namespace ScheduleOpt.Comparison.SetUps;

/// <summary>The ranges that the ready-made set-ups offer, in one place.</summary>
/// <remarks>No single average can be defended: thirteen studies of installation cost vary too much (Idaho National Laboratory, Sustainability
/// 15(23) 16373, 2023, doi 10.3390/su152316373). So ranges, and the household's own quotation before any of them.</remarks>
public static class PublishedRanges
{
    /// <summary>Why there is no single figure; stands beside every first cost that is not the household's own.</summary>
    public const string NoSingleAverage =
        "A planning figure, not a quotation: thirteen studies of installation cost vary too much for one average (Idaho National Laboratory, 2023, "
        + "doi 10.3390/su152316373). Ask an electrician for a quotation.";

    /// <summary>A charging unit for 208 to 240 V, before installation. [USD]</summary>
    public static PublishedRange Unit { get; } = new(
        500, 700, "USD", "Orange & Rockland (utility), charging and installation questions", Evidence.Read);

    /// <summary>A receptacle of 120 V on a circuit of its own. [USD]</summary>
    public static PublishedRange OwnCircuit120V { get; } = new(150, 600, "USD", "planning band", Evidence.FromMemory);

    /// <summary>A new receptacle of 240 V near the panel. [USD]</summary>
    public static PublishedRange Receptacle240V { get; } = new(300, 1500, "USD", "planning band, near the panel", Evidence.FromMemory);

    /// <summary>Wiring of a hardwired unit. [USD]</summary>
    public static PublishedRange Hardwiring { get; } = new(
        800, 2500, "USD", "planning band, typical; read here as the installation without the unit", Evidence.FromMemory);

    /// <summary>The permit. [USD]</summary>
    public static PublishedRange Permit { get; } = new(50, 250, "USD", "planning band", Evidence.FromMemory);

    /// <summary>A larger panel, where one is needed. [USD]</summary>
    public static PublishedRange PanelUpgrade { get; } = new(
        1000, 5000, "USD", "Pecan Street, August 2021, mean 2,000, via Electrical Contractor, 7 September 2021", Evidence.Reported);

    /// <summary>A larger utility service, where one is needed. [USD]</summary>
    public static PublishedRange ServiceUpgrade { get; } = new(
        2500, 40000, "USD", "California, SPUR report; months of waiting; many homes of 100 A or more can avoid it", Evidence.Reported);

    /// <summary>What a unit takes while no car charges. [W]</summary>
    public static PublishedRange Standby { get; } = new(
        2, 15, "W", "about 15 W for a standard unit, 9 W for a certified one, from US EPA's scoping note (265 kWh in 5 years); lower end of 2 W assumed",
        Evidence.Derived);
}
