namespace ScheduleOpt.Tariffs;

/// <summary>The parts of a bill.</summary>
public enum BillPart
{
    /// <summary>Fixed charges.</summary>
    CustomerCharge,

    /// <summary>Energy at its price.</summary>
    EnergyCharge,

    /// <summary>The highest average power at its price.</summary>
    DemandCharge,

    /// <summary>Amounts per kWh on top of the energy charges, or off them.</summary>
    Adjustment,

    /// <summary>Amounts taken off, rebates included.</summary>
    Credit,

    /// <summary>What exported energy earned, and what of it was banked, taken from the bank or paid out.</summary>
    ExportCredit,

    /// <summary>What was missing to the minimum bill.</summary>
    MinimumBill,

    /// <summary>Percentages on other lines.</summary>
    Tax,

    /// <summary>What rounding the total of a billing period added or took.</summary>
    Rounding,
}
