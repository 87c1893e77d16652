using ScheduleOpt.Tariffs.Events;

namespace ScheduleOpt.Tariffs;

/// <summary>What is given beside a plan and an import series; all of it may be left out.</summary>
public sealed record BillInput
{
    /// <summary>Nothing beside the plan.</summary>
    public static BillInput None { get; } = new();

    /// <summary>The choice for each option of the plan; where one is missing its default holds.</summary>
    public IReadOnlyDictionary<string, string> Choices { get; init; } = new Dictionary<string, string>();

    /// <summary>Energy given to the network: the same start, interval and length as the import; none for no export.</summary>
    public MeteredSeries? Export { get; init; }

    /// <summary>Price series by name.</summary>
    public IReadOnlyDictionary<string, PriceSeries> Prices { get; init; } = new Dictionary<string, PriceSeries>();

    /// <summary>Events by the name of their definition, besides those that the document lists.</summary>
    public IReadOnlyDictionary<string, IReadOnlyList<CalledEvent>> Events { get; init; } = new Dictionary<string, IReadOnlyList<CalledEvent>>();

    /// <summary>Size of the service; none for the document's. [kW]</summary>
    public decimal? ServiceKw { get; init; }

    /// <summary>What earlier bills carried forward.</summary>
    public BillState State { get; init; } = BillState.Empty;
}
