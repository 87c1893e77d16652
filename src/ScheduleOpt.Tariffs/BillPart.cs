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

    /// <summary>What was missing to the minimum bill.</summary>
    MinimumBill,

    /// <summary>Percentages on other lines.</summary>
    Tax,

    /// <summary>What rounding the total of a billing period added or took.</summary>
    Rounding,
}
