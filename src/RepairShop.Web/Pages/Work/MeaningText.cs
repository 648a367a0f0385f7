using RepairShop.Domain.Paperwork;
using RepairShop.Measurement.Statistics;

namespace RepairShop.Web.Pages.Work;

/// <summary>What a time is and what an uncertainty is made of, in words.</summary>
public static class MeaningText
{
    public static string Of(TimeMeaning? meaning) => meaning switch
    {
        TimeMeaning.Effective => "effective time, recorded",
        TimeMeaning.HalfWidth => "width at 50 % of the light, recorded",
        TimeMeaning.Typed => "as typed",
        _ => "typed and recorded times together",
    };

    public static string Of(UncertaintySource source) => source switch
    {
        UncertaintySource.Scatter => "scatter",
        UncertaintySource.Resolution => "smallest step",
        UncertaintySource.Trigger => "noise at the crossings",
        _ => "other",
    };
}
