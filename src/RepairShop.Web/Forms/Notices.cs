using Microsoft.AspNetCore.Mvc.RazorPages;

namespace RepairShop.Web.Forms;

/// <summary>A sentence for the next page ("Saved."), with an undo where there is one.</summary>
public static class Notices
{
    internal const string Key = "Notice";
    internal const string UndoKey = "NoticeUndo";

    /// <param name="page">The page that has done something.</param>
    /// <param name="sentence">What it has done.</param>
    /// <param name="undoUrl">Where a form with one button "Undo" posts to; null for none.</param>
    public static void Tell(this PageModel page, string sentence, string? undoUrl = null)
    {
        page.TempData[Key] = sentence;
        if (undoUrl is not null)
            page.TempData[UndoKey] = undoUrl;
    }
}
