namespace ScheduleOpt.Tariffs.Charges;

/// <summary>What exported energy is worth.</summary>
/// <param name="Kind">kWh against kWh, or a price for each kWh.</param>
public sealed record ExportRule(ExportKind Kind)
{
    /// <summary>Import and export are netted over so many minutes; 0 for never, none for each metering interval. [min]</summary>
    public int? NettingMinutes { get; init; }

    /// <summary>Net metering: whether kWh offset only the use of the same period; otherwise of all.</summary>
    public bool BankByPeriod { get; init; }

    /// <summary>Net metering: what a banked kWh is paid when the bank is emptied. [currency/kWh]</summary>
    public decimal PayOutPerKwh { get; init; }

    /// <summary>Net billing: prices paid; those for the same hour add up.</summary>
    public IReadOnlyList<EnergyCharge> Prices { get; init; } = [];

    /// <summary>Net billing: what becomes of the credit.</summary>
    public CreditUse CreditUse { get; init; }

    /// <summary>Parts of the bill that banked credit can offset.</summary>
    public IReadOnlyList<BillPart> Offsets { get; init; } = [];

    /// <summary>Net billing: the share of the bank that is paid when it is emptied. [%]</summary>
    public decimal PayOutPercent { get; init; }

    /// <summary>The billing period that holds the last day of this month empties the bank; none for never.</summary>
    public int? SettlementMonth { get; init; }

    /// <summary>Where the document says so.</summary>
    public DocumentPlace? Place { get; init; }
}

/// <summary>How exported energy is settled.</summary>
public enum ExportKind
{
    /// <summary>kWh against kWh over the billing period, with a bank.</summary>
    NetMetering,

    /// <summary>A price for each exported kWh.</summary>
    NetBilling,
}

/// <summary>What becomes of an export credit.</summary>
public enum CreditUse
{
    /// <summary>It stands on the bill, which may fall below zero.</summary>
    ThisBill,

    /// <summary>It offsets the bill, at most to zero; the rest is banked.</summary>
    BankThisBill,

    /// <summary>It is banked, and can be used from the next bill.</summary>
    BankNextBill,
}
