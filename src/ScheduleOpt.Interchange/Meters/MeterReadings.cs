namespace ScheduleOpt.Interchange.Meters;

/// <summary>What a file of meter readings holds.</summary>
public sealed record MeterReadings
{
    /// <summary>Every metered flow of electrical energy, at least one; flows are never added up.</summary>
    public required IReadOnlyList<MeterChannel> Channels { get; init; }

    /// <summary>What the file does not say and was taken to be so.</summary>
    public IReadOnlyList<string> Guesses { get; init; } = [];

    /// <summary>What whoever uses the series should know, such as another clock than the household's.</summary>
    public IReadOnlyList<string> Warnings { get; init; } = [];

    /// <summary>Readings that were left out, such as those of gas, with the reason.</summary>
    public IReadOnlyList<string> Skipped { get; init; } = [];

    /// <summary>Bills that the utility tells of.</summary>
    public IReadOnlyList<BillSummary> Summaries { get; init; } = [];

    /// <summary>What the house took from the network: the delivered flow with the shortest interval that is not a car's alone; none where there
    /// is none.</summary>
    public MeterChannel? House => Finest(isVehicle: false, FlowDirection.Delivered);

    /// <summary>What a separately metered car took; none where no meter is marked so.</summary>
    public MeterChannel? Vehicle => Finest(isVehicle: true, FlowDirection.Delivered);

    /// <summary>What the house gave to the network; none where that is not metered.</summary>
    public MeterChannel? Export => Finest(isVehicle: false, FlowDirection.Received);

    private MeterChannel? Finest(bool isVehicle, FlowDirection direction) =>
        Channels.Where(c => c.IsVehicle == isVehicle && c.Direction == direction).MinBy(c => c.Series.Interval);
}
